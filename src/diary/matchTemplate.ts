/**
 * Client templates such as `{service} - {client}` (settings' clientFrom): split at their fixed text, never turned into a
 * regular expression, so that no summary can keep them busy.
 */

export interface Template {
  /** Fixed text before the first field, between the fields, after the last. */
  readonly before: string;
  readonly between: string;
  readonly after: string;
  /** One or two fields, each once. */
  readonly fields: readonly ("service" | "client")[];
}

/** A template that names both parts. */
export const namesBoth = ({ fields }: Template): boolean => fields.length === 2;

export interface TemplateMatch {
  readonly service: string | null;
  readonly client: string;
}

/** Places at which a summary is tried to be split; the text of each is gone through once. */
const SPLITS_MAX = 20;
/** Characters of a summary that are looked at for a name: beyond them it is prose. */
const SUMMARY_SPLIT_MAX = 1_000;

/** Summaries and templates alike: every dash a hyphen, single blanks. */
const tidy = (text: string): string => text.replace(/[‐-―−]/g, "-").replace(/\s+/g, " ");

/** Reads a template; undefined where it has no `{client}`, a field twice, or two fields with nothing between them. */
export const parseTemplate = (text: string): Template | undefined => {
  const pieces = tidy(text).split(/\{(service|client)\}/);
  const fields = pieces.filter((_, index) => index % 2 === 1) as ("service" | "client")[];
  if (!fields.includes("client") || new Set(fields).size !== fields.length) return undefined;
  const [before = "", , between = "", , after = ""] = pieces;
  if (fields.length === 1) return { before, between: "", after: between, fields };
  return between === "" ? undefined : { before, between, after, fields };
};

/** Every way in which a summary fits a template, the earliest split first; empty where none. */
export const matchTemplate = (summary: string, template: Template): readonly TemplateMatch[] => {
  if (summary.length > SUMMARY_SPLIT_MAX) return [];
  const text = tidy(summary).trim();
  const { before, between, after, fields } = template;
  if (text.length < before.length + after.length || !text.startsWith(before) || !text.endsWith(after)) return [];
  const inner = text.slice(before.length, text.length - after.length);
  if (fields.length === 1) return inner.trim() === "" ? [] : [{ service: null, client: inner.trim() }];
  const matches: TemplateMatch[] = [];
  for (let at = inner.indexOf(between); at >= 0 && matches.length < SPLITS_MAX; at = inner.indexOf(between, at + 1)) {
    const first = inner.slice(0, at).trim();
    const second = inner.slice(at + between.length).trim();
    if (first === "" || second === "") continue;
    matches.push(fields[0] === "client" ? { client: first, service: second } : { service: first, client: second });
  }
  return matches;
};
