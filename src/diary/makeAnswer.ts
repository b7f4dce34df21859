/** What is kept of a person's answer to an entry: the answer itself, and what it was given in sight of. */
import type { Instant } from "../time/instant.ts";
import { type AnsweredAs, type EntryAnswer, titleOf } from "./answers.ts";
import type { Sorting } from "./compileSorting.ts";
import { foldWords } from "./compileWords.ts";
import type { SortedEntry } from "./findBookings.ts";
import { findClient } from "./findClient.ts";
import { foldName } from "./foldName.ts";
import { nameHabits } from "./nameHabits.ts";
import { placeOf } from "./ownAnswer.ts";
import { phraseOf } from "./phraseOf.ts";
import { readWords } from "./readWords.ts";
import type { Entry, Person } from "./types.ts";

/** What a person says of an entry. */
export interface GivenAnswer {
  readonly as: AnsweredAs;
  readonly service: string | null;
  readonly client: Person | null;
}

/** Where and when it is said. */
export interface AnswerPlace {
  readonly id: string;
  readonly diary: string;
  readonly first: Instant;
  readonly at: Instant;
  /** All entries of the diary in sight. */
  readonly beside: readonly SortedEntry[];
  /** Names of the salon's clients. */
  readonly clients: Iterable<string>;
}

/** The service that a booking is for: as told, else by its words, else the only one there is; null where that is not clear. */
export const bookedService = ({ summary }: Entry, told: string | null, sorting: Sorting): string | null => {
  const { services } = sorting;
  const only = services.length === 1 ? (services[0]?.name ?? null) : null;
  return told ?? readWords(foldWords(summary), sorting).service ?? only;
};

export const makeAnswer = (entry: Entry, given: GivenAnswer, place: AnswerPlace, sorting: Sorting): EntryAnswer => {
  const { id, diary, first, at, beside } = place;
  const { uid, key, recurrenceId } = entry;
  const text = foldWords(entry.summary);
  const { said } = readWords(text, sorting);
  const carried = findClient(entry, sorting);
  const sharesUid = beside.some(
    (each) => each.entry.key !== key && each.entry.uid === uid && each.entry.recurrenceId === recurrenceId,
  );
  const named = [given.client?.name ?? "", carried?.name ?? ""];
  const known = new Set(Array.from(place.clients, foldWords));
  return {
    id,
    diary,
    uid,
    key,
    recurrenceId,
    pinned: sharesUid ? placeOf(entry) : null,
    title: titleOf(text),
    said,
    carried: carried && foldName(carried.name),
    as: given.as,
    service: given.as === "booking" ? bookedService(entry, given.service, sorting) : null,
    client: given.as === "not-colour" ? null : given.client,
    phrase: phraseOf(entry, said, given.as, named, nameHabits(beside, sorting), known, sorting),
    first,
    at,
  };
};
