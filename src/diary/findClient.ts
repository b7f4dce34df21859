/**
 * Who an entry's client is: from its attendees or its summary, as the settings say. Staff are never clients, and a name that
 * is not there is not made up.
 */
import { TEXT_MAX } from "../bounds.ts";
import type { Sorting } from "./compileSorting.ts";
import { foldWords, withoutWords } from "./compileWords.ts";
import { foldName } from "./foldName.ts";
import { matchTemplate, type Template } from "./matchTemplate.ts";
import type { Entry, Person } from "./types.ts";
import { wordsIn } from "./wordIndex.ts";

/** The client of an entry, or null where it carries no client's name. */
export const findClient = (entry: Entry, sorting: Sorting): Person | null => {
  const guests = guestsOf(entry, sorting);
  for (const from of sorting.clientFrom) {
    const name = from === "attendee" ? (guests[0]?.name ?? "") : nameFromSummary(entry.summary, from, sorting);
    if (name !== "") return describeClient(name, entry, sorting, guests);
  }
  return null;
};

/**
 * Whom a title may name where nothing says for certain that it does: the first part of it that may be a name, by the templates
 * in their order. For a person to look at, and never taken for true.
 */
export const guessClient = ({ summary }: Pick<Entry, "summary">, sorting: Sorting): string | null => {
  for (const from of sorting.clientFrom) {
    if (from === "attendee") continue;
    const split = matchTemplate(summary, from).find(({ client }) => mayBeClient(client, sorting));
    if (split) return split.client;
  }
  return null;
};

/** The client that an entry's attendees name, where the settings look there; null where none does. */
export const findGuest = (entry: Entry, sorting: Sorting): Person | null => {
  const guests = guestsOf(entry, sorting);
  const name = sorting.clientFrom.includes("attendee") ? (guests[0]?.name ?? "") : "";
  return name === "" ? null : describeClient(name, entry, sorting, guests);
};

/** Attendees that may be clients. */
export const guestsOf = ({ attendees }: Pick<Entry, "attendees">, sorting: Sorting): readonly Person[] =>
  attendees.filter(
    ({ name, email }) => !sorting.staff.has(foldName(name)) && (email === null || !sorting.staff.has(foldName(email))),
  );

/** A client of this name, with the address and the telephone that the entry gives. */
export const describeClient = (
  name: string,
  entry: Entry,
  sorting: Sorting,
  guests: readonly Person[] = guestsOf(entry, sorting),
): Person => {
  // The address beside the name: of the attendee of that name, or of one who stands there without any.
  const guest =
    guests.find((person) => foldName(person.name) === foldName(name)) ?? guests.find((person) => !person.name);
  return { name, email: guest?.email ?? null, phone: guest?.phone ?? findPhone(entry.description, sorting) };
};

/**
 * The client's part of a summary. The service's part must hold one of the salon's words; of several ways to split, one
 * whose client's part holds none comes first, and a part made of such words alone is no name.
 */
const nameFromSummary = (summary: string, template: Template, sorting: Sorting): string => {
  let found = "";
  for (const { service, client } of matchTemplate(summary, template)) {
    if (!mayBeClient(client, sorting) || (service !== null && !holdsWord(service, sorting))) continue;
    if (!holdsWord(client, sorting)) return client;
    if (found === "") found = client;
  }
  return found;
};

/** Whether a part of a summary may be a client's name: it has letters besides the salon's words and is nobody's of the staff. */
export const mayBeClient = (text: string, sorting: Sorting): boolean =>
  text.length <= TEXT_MAX &&
  /\p{L}/u.test(withoutSalonWords(foldWords(text), sorting)) &&
  !sorting.staff.has(foldName(text));

/** @param text folded by foldWords */
export const withoutSalonWords = (text: string, { words }: Sorting): string => withoutWords(text, wordsIn(text, words));

const holdsWord = (text: string, { words }: Sorting): boolean => wordsIn(foldWords(text), words).length > 0;

/** The first `tel:` of a description that is not the salon's own number. */
const findPhone = (description: string, sorting: Sorting): string | null => {
  for (const [, written = ""] of description.matchAll(/\btel:\s{0,3}(\+?[\d ().\-/]{5,30})/gi)) {
    const digits = written.replace(/\D/g, "");
    if (digits.length >= 5 && digits !== sorting.ownPhone) return written.trim().replace(/[ ().\-/]+$/, "");
  }
  return null;
};
