/** A salon's words and people, prepared once for sorting many entries. */
import type { Settings } from "../settings.ts";
import { compileWords, foldWords, type Word } from "./compileWords.ts";
import { foldName } from "./foldName.ts";
import { parseTemplate, type Template } from "./matchTemplate.ts";
import { type NearWord, nearWordsOf } from "./nearestService.ts";
import { indexWords, type WordIndex } from "./wordIndex.ts";

export interface ServiceWords {
  readonly name: string;
  readonly words: readonly Word[];
}

/** A word of the salon's, and what it says an entry is. */
export interface SalonWord extends Word {
  readonly says: "colour" | "test" | "not-colour";
  /** Of a colour. */
  readonly service: string | null;
}

export interface Sorting {
  /** In the settings' order. */
  readonly services: readonly ServiceWords[];
  /** Of services, in the settings' order, then those of no colour and of tests. */
  readonly words: WordIndex<SalonWord>;
  /** For the hint of the nearest service. */
  readonly nearWords: readonly NearWord[];
  /** Tried in order. */
  readonly clientFrom: readonly ("attendee" | Template)[];
  /** Names and addresses, folded, of people who are never clients: staff and the salon itself. */
  readonly staff: ReadonlySet<string>;
  /** The names of the salon and its staff, as they may stand in a title. */
  readonly ourNames: readonly Word[];
  /** Digits of the salon's own telephone, or null. */
  readonly ownPhone: string | null;
}

export const compileSorting = (
  settings: Pick<Settings, "name" | "services" | "notColour" | "testWords" | "clientFrom" | "staff" | "contact">,
): Sorting => {
  const services = settings.services.map(({ name, words }) => ({ name, words: compileWords(words) }));
  const clientFrom = settings.clientFrom
    .map((from) => (from.trim().toLowerCase() === "attendee" ? ("attendee" as const) : parseTemplate(from)))
    .filter((from) => from !== undefined);
  const { email, phone } = settings.contact;
  return {
    services,
    words: indexWords([
      ...services.flatMap(({ name, words }) => saying(words, "colour", name)),
      ...saying(compileWords(settings.notColour), "not-colour"),
      ...saying(compileWords(settings.testWords), "test"),
    ]),
    nearWords: nearWordsOf(services),
    clientFrom,
    staff: new Set([...settings.staff, ...(email === null ? [] : [email])].map(foldName)),
    ourNames: namesOf(settings),
    ownPhone: phone === null ? null : phone.replace(/\D/g, ""),
  };
};

const saying = (words: readonly Word[], says: SalonWord["says"], service: string | null = null): readonly SalonWord[] =>
  words.map((word) => ({ ...word, says, service }));

/** Whole names first, then the parts of those of the staff: "Ann Brill with Nell". An address is no name. */
const namesOf = ({ name, staff }: Pick<Settings, "name" | "staff">): readonly Word[] => {
  const people = staff.filter((each) => !each.includes("@"));
  const stems = [name, ...people, ...people.flatMap((each) => each.split(/\s+/))].map(foldWords);
  return stems.filter((stem) => stem !== "").map((stem) => ({ stem, anyEnding: false }));
};
