/** Puts what the settings refuse at the fields it was typed in. Never decides what is refused. */
import type { FormRead, Typed } from "./rulesForm.ts";
import { fullLabelOf } from "./labels.ts";
import { spoken } from "./spoken.ts";

/** One thing wrong, as the settings name it. */
export interface Refused {
  readonly at: string;
  readonly text: string;
}

export interface FormFault {
  /** The field's name in the form; null: it is of none of them. */
  readonly field: string | null;
  /** "must be …": a sentence without its subject. */
  readonly text: string;
}

/** By field. */
export type FormFaults = ReadonlyMap<string, readonly string[]>;

export const byField = (faults: readonly FormFault[]): FormFaults =>
  new Map(
    [...Map.groupBy(faults, ({ field }) => field ?? "")].map(([field, all]) => [field, all.map(({ text }) => text)]),
  );

export const faultsOf = (refused: readonly Refused[], { given, rows }: FormRead, typed: Typed): readonly FormFault[] =>
  refused.map(({ at, text }): FormFault => {
    const field = fieldAt(at, given, rows, typed);
    const broken = field === "protocols" || field === "questions" ? brokenJson(typed.get(field) ?? "") : null;
    if (broken !== null) return { field, text: broken };
    const isUnticked = TICKED.test(field ?? "") && typed.getAll(field ?? "").every((each) => each === "");
    if (isUnticked) return { field, text: "must have at least one tick; set one." };
    const said = text.startsWith(at) ? text.slice(at.length).trim() : text;
    const line = LINED.test(field ?? "") ? /\[(\d+)\][^[]*$/.exec(at)?.[1] : undefined;
    return { field, text: plain(line === undefined ? said : `line ${Number(line) + 1} ${said}`) };
  });

/** A fault as a whole sentence, where its field is not in sight. */
export const sentenceOf = ({ field, text }: FormFault): string => {
  if (field === null) return text;
  return `${fullLabelOf(field)}${text.startsWith("line ") ? ":" : ""} ${text}`;
};

/** Fields of boxes to tick, of which one must be. */
const TICKED = /^(post\.collection|post\.delivery|test\.[a-z-]+\.protocol)$/;

/** Fields of several lines, of which one is meant. */
const LINED = /^(staff|notColour|testWords|clientFrom|closed|post\.closed|holidays\.add|service\.\d+\.words)$/;

/** Settings' own words for what the page calls otherwise. */
const plain = (text: string): string =>
  spoken(text)
    .replaceAll("holidays.add", `“${fullLabelOf("holidays.add")}”`)
    .replaceAll("under protocols", `under “${fullLabelOf("protocols")}”`);

/** `opening.tue[0]` is typed in the field `opening.tue`, and `tests[1].kit.name` in that of the second test's way. */
const fieldAt = (at: string, given: FormRead["given"], rows: FormRead["rows"], typed: Typed): string | null => {
  const known = new Set(typed.keys());
  const name = at.replace(/^tests\[(\d+)\]/, (_, place: string) => `test.${routeAt(given, Number(place))}`);
  const inForm = name
    .replace(/^services\[(\d+)\]/, (_, place: string) => `service.${rows[Number(place)] ?? 0}`)
    .replaceAll(/\[\d+\]/g, "");
  for (let found = inForm; found !== ""; found = found.slice(0, Math.max(0, found.lastIndexOf(".")))) {
    if (known.has(found) || (found === "services" && [...known].some((each) => each.startsWith("service."))))
      return found;
  }
  return at.startsWith("tests") && known.has("tests") ? "tests" : null;
};

const routeAt = (given: FormRead["given"], place: number): string =>
  (given["tests"] as readonly { readonly route: string }[])[place]?.route ?? "";

/** Why a text is no JSON, or null where it is or nothing stands there. */
const brokenJson = (text: string): string | null => {
  if (text.trim() === "") return null;
  try {
    JSON.parse(text);
    return null;
  } catch {
    return "is not JSON: a bracket, a comma or a quotation mark is missing or too many; compare it with the example, or empty the field.";
  }
};
