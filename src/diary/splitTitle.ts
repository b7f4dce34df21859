/** The ways in which a summary may be a service and a client, by the salon's templates that name both. */
import type { Sorting } from "./compileSorting.ts";
import { foldWords } from "./compileWords.ts";
import { matchTemplate, namesBoth, type Template } from "./matchTemplate.ts";

export interface TitleSplit {
  readonly template: Template;
  /** Folded by foldWords, with the template's own words around it. */
  readonly phrase: string;
  /** As it is written. */
  readonly client: string;
}

/**
 * Every split whose client's part is one part alone: where the fixed text between the two stands in it once more, it is not
 * told how much of it is the service. Longest phrase first.
 */
export const splitTitle = (summary: string, sorting: Sorting): readonly TitleSplit[] =>
  sorting.clientFrom.flatMap((template) => {
    if (template === "attendee") return [];
    const between = template.between.trim();
    return matchTemplate(summary, template)
      .filter(({ client }) => between === "" || !client.includes(between))
      .map(({ service, client }) => ({ template, client, phrase: phraseAround(template, service) }))
      .toSorted((one, other) => other.phrase.length - one.phrase.length);
  });

/** A template for the client alone may hold the service in its fixed text: `Glow for {client}`. */
const phraseAround = (template: Template, service: string | null): string =>
  foldWords(namesBoth(template) ? (service ?? "") : `${template.before} ${template.after}`);

/** The text without a name that stands in it as whole words; all folded by foldWords. */
export const withoutName = (text: string, name: string): string => {
  if (name === "") return text;
  const padded = ` ${text} `.replaceAll(` ${name} `, " ");
  return padded.trim();
};
