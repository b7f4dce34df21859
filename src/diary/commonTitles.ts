/**
 * What the titles that no word matches say most often, without their clients' names: each could be a word of the salon's.
 * Leaves out what may be nobody but a client. Pure; guesses nothing of what a title means.
 */
import { foldWords } from "./compileWords.ts";
import type { SortedEntry } from "./findBookings.ts";
import { findClient } from "./findClient.ts";
import { nameHabits } from "./nameHabits.ts";
import { phraseOf } from "./phraseOf.ts";
import type { Sorting } from "./sortEntry.ts";

export interface CommonTitle {
  /** Folded by foldWords; a word of the settings as it stands. */
  readonly phrase: string;
  readonly count: number;
  /** One of these titles as it is written. */
  readonly example: string;
  /** The service whose words come nearest, or null. */
  readonly nearest: string | null;
  /** It may be a name too: as a word of no colour it would hide that client's appointments. */
  readonly mayBeName: boolean;
}

/**
 * The commonest first; of equals, in order of the alphabet.
 * @param diaries the entries of each in sight
 * @param clients names of the salon's clients
 */
export const commonTitles = (
  diaries: Iterable<readonly SortedEntry[]>,
  clients: Iterable<string>,
  sorting: Sorting,
  limit: number,
): readonly CommonTitle[] => {
  const known = new Set(Array.from(clients, foldWords));
  const titles = new Map<string, CommonTitle>();
  for (const entries of diaries) {
    const habits = nameHabits(entries, sorting);
    for (const { entry, sorted } of entries) {
      if (sorted.kind !== "unsorted" || sorted.why.code !== "no-match") continue;
      const named = [findClient(entry, sorting)?.name ?? ""];
      const asNotColour = phraseOf(entry, "nothing", "not-colour", named, habits, known, sorting);
      const phrase = asNotColour || phraseOf(entry, "nothing", "booking", named, habits, known, sorting);
      // A name amid the words would keep the rest of them from being found again.
      if (phrase === "" || !` ${foldWords(entry.summary)} `.includes(` ${phrase} `)) continue;
      const before = titles.get(phrase);
      titles.set(phrase, {
        phrase,
        count: (before?.count ?? 0) + 1,
        example: before?.example ?? entry.summary,
        nearest: before?.nearest ?? sorted.nearest,
        mayBeName: (before?.mayBeName ?? false) || asNotColour === "",
      });
    }
  }
  return [...titles.values()].filter(isCommon).toSorted(byCount).slice(0, limit);
};

/** What may be a name and stands there once is a person's appointment, not a way of writing. */
const isCommon = ({ count, mayBeName }: CommonTitle): boolean => count > 1 || !mayBeName;

const byCount = (one: CommonTitle, other: CommonTitle): number =>
  other.count - one.count || (one.phrase < other.phrase ? -1 : 1);
