/** A salon's words and people, prepared once for sorting many entries. */
import type { Settings } from "../settings.ts";
import { compileWords, foldWords, type Word } from "./compileWords.ts";
import { foldName } from "./foldName.ts";
import { parseTemplate, type Template } from "./matchTemplate.ts";
import { type NearWord, nearWordsOf } from "./nearestService.ts";

export interface ServiceWords {
  readonly name: string;
  readonly words: readonly Word[];
}

export interface Sorting {
  /** In the settings' order. */
  readonly services: readonly ServiceWords[];
  readonly notColour: readonly Word[];
  readonly testWords: readonly Word[];
  /** All of the above. */
  readonly allWords: readonly Word[];
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
  const notColour = compileWords(settings.notColour);
  const testWords = compileWords(settings.testWords);
  const clientFrom = settings.clientFrom
    .map((from) => (from.trim().toLowerCase() === "attendee" ? ("attendee" as const) : parseTemplate(from)))
    .filter((from) => from !== undefined);
  const { email, phone } = settings.contact;
  return {
    services,
    notColour,
    testWords,
    allWords: [...services.flatMap(({ words }) => words), ...notColour, ...testWords],
    nearWords: nearWordsOf(services),
    clientFrom,
    staff: new Set([...settings.staff, ...(email === null ? [] : [email])].map(foldName)),
    ourNames: namesOf(settings),
    ownPhone: phone === null ? null : phone.replace(/\D/g, ""),
  };
};

/** Whole names first, then the parts of those of the staff: "Ann Brill with Nell". An address is no name. */
const namesOf = ({ name, staff }: Pick<Settings, "name" | "staff">): readonly Word[] => {
  const people = staff.filter((each) => !each.includes("@"));
  const stems = [name, ...people, ...people.flatMap((each) => each.split(/\s+/))].map(foldWords);
  return stems.filter((stem) => stem !== "").map((stem) => ({ stem, anyEnding: false }));
};
