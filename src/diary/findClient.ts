/**
 * Who an entry's client is: from its attendees or its summary, as the settings say. Staff are never clients, and a name that
 * is not there is not made up.
 */
import type { Sorting } from "./compileSorting.ts";
import { findWord, foldWords, withoutWords } from "./compileWords.ts";
import { foldName } from "./foldName.ts";
import { matchTemplate, type Template } from "./matchTemplate.ts";
import type { Entry, Person } from "./types.ts";

/** The client of an entry, or null where it carries no client's name. */
export const findClient = (entry: Entry, sorting: Sorting): Person | null => {
  const guests = entry.attendees.filter((person) => !isStaff(person, sorting));
  for (const from of sorting.clientFrom) {
    const name = from === "attendee" ? (guests[0]?.name ?? "") : nameFromSummary(entry.summary, from, sorting);
    if (name === "") continue;
    // The address beside the name: of the attendee of that name, or of one who stands there without any.
    const guest =
      guests.find((person) => foldName(person.name) === foldName(name)) ?? guests.find((person) => !person.name);
    const phone = guest?.phone ?? findPhone(entry.description, sorting);
    return { name, email: guest?.email ?? null, phone };
  }
  return null;
};

const isStaff = (person: Person, sorting: Sorting): boolean =>
  sorting.staff.has(foldName(person.name)) || (person.email !== null && sorting.staff.has(foldName(person.email)));

/**
 * The client's part of a summary. The service's part must hold one of the salon's words; of several ways to split, one
 * whose client's part holds none comes first, and a part made of such words alone is no name.
 */
const nameFromSummary = (summary: string, template: Template, sorting: Sorting): string => {
  const fitting = matchTemplate(summary, template).filter(
    ({ service, client }) =>
      (service === null || holdsWord(service, sorting)) &&
      isName(client, sorting) &&
      !sorting.staff.has(foldName(client)),
  );
  return (fitting.find(({ client }) => !holdsWord(client, sorting)) ?? fitting[0])?.client ?? "";
};

const holdsWord = (text: string, sorting: Sorting): boolean => {
  const folded = foldWords(text);
  return sorting.allWords.some((word) => findWord(folded, word) !== undefined);
};

const isName = (text: string, sorting: Sorting): boolean =>
  /\p{L}/u.test(withoutWords(foldWords(text), sorting.allWords));

/** The first `tel:` of a description that is not the salon's own number. */
const findPhone = (description: string, sorting: Sorting): string | null => {
  for (const [, written = ""] of description.matchAll(/\btel:\s{0,3}(\+?[\d ().\-/]{5,30})/gi)) {
    const digits = written.replace(/\D/g, "");
    if (digits.length >= 5 && digits !== sorting.ownPhone) return written.trim().replace(/[ ().\-/]+$/, "");
  }
  return null;
};
