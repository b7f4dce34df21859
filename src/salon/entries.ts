/**
 * The entries of a salon's diaries as the desk sees them: what each was taken for, and why. Read from what the last applied
 * readings left in storage. Changes nothing.
 */
import { createHash } from "node:crypto";
import { ENTRY_TEXT_MAX } from "../bounds.ts";
import type { SortedEntry } from "../diary/findBookings.ts";
import type { Sorting } from "../diary/compileSorting.ts";
import { findClient, guessClient } from "../diary/findClient.ts";
import type { Entry, Skipped, Sorted } from "../diary/types.ts";
import { clip } from "../feed/clip.ts";
import type { Why } from "../plan/types.ts";
import { type Day, type Instant } from "../time/instant.ts";
import type { Keeper } from "./keeper.ts";
import { leftOutSkipped } from "./readBlocks.ts";

export const ENTRY_STATES = ["unsorted", "booking", "test", "not-colour", "not-certain"] as const;
export type EntryState = (typeof ENTRY_STATES)[number];

/** Which entries are listed. */
export interface EntryChoice {
  readonly state: EntryState | null;
  readonly diary: string | null;
  /** Where the page before ended. */
  readonly after: EntryCursor | null;
  readonly limit: number;
}

/** A place in the list that holds though entries before it change their state. */
export interface EntryCursor {
  readonly place: number;
  readonly id: string;
}

/** An entry as it is listed. */
export interface EntryShown {
  readonly id: string;
  readonly uid: string;
  readonly recurrenceId: string | null;
  readonly diary: string;
  /** Null for an all-day entry, and where it is not certain. */
  readonly start: Instant | null;
  readonly end: Instant | null;
  /** Of an all-day entry. */
  readonly date: Day | null;
  /** The start as the diary wrote it, where it is not certain. */
  readonly written: string | null;
  readonly summary: string;
  readonly state: EntryState;
  readonly why: Why | null;
  readonly nearest: string | null;
  /** Of a booking. */
  readonly service: string | null;
  /** Of a booking or a test. */
  readonly client: string | null;
  readonly cancelled: boolean;
  /** Whom one that is unsorted names: for certain, or perhaps. Not part of the outward entry. */
  readonly named: { readonly name: string; readonly isCertain: boolean } | null;
}

/** What stands in a diary: an entry as it was sorted, or one of which nothing is certain. */
export type EntryFound = { readonly id: string; readonly diary: string; readonly place: number } & (
  | ({ readonly kind: "entry" } & SortedEntry)
  | { readonly kind: "skipped"; readonly skipped: Skipped }
);

/** Behind everything that has a time. */
const UNTIMED = 99_999_999_999;

/** Names an entry in addresses: derived from what identifies it, so that it is the same at every reading. */
const entryId = (...parts: readonly (string | number)[]): string =>
  createHash("sha256").update(JSON.stringify(parts)).digest("hex").slice(0, 20);

/** Every entry in sight of one diary, or of all. */
export function* findEntries({ store, state, desk }: Keeper, only: string | null = null): Generator<EntryFound> {
  const { zone } = desk.rules;
  for (const diary of state.diaries.keys()) {
    if (only !== null && diary !== only) continue;
    const alike = new Map<string, number>();
    for (const read of store.blocks.reads(diary).values()) {
      for (const each of read.entries) {
        const { key, start, date } = each.entry;
        const place = start ?? (date === null ? UNTIMED : zone.startOfDay(date));
        yield { id: entryId(diary, key), diary, place, kind: "entry", ...each };
      }
      const skipped = read.readBy === "" ? [leftOutSkipped(read)] : read.skipped;
      for (const each of skipped) {
        const name = JSON.stringify([each.uid, each.recurrenceId, each.start, each.reason]);
        const count = (alike.get(name) ?? 0) + 1;
        alike.set(name, count);
        yield { id: entryId(diary, name, count), diary, place: UNTIMED, kind: "skipped", skipped: each };
      }
    }
  }
}

/** The earliest first; what has no certain time last. `next` is the cursor of the page that follows, if any. */
export const listEntries = (
  keeper: Keeper,
  { state, diary, after, limit }: EntryChoice,
): { readonly entries: readonly EntryShown[]; readonly next: EntryCursor | null } => {
  let chosen: EntryFound[] = [];
  // One more than is listed, to know whether a page follows; no more are kept, since fifty diaries hold very many.
  const cut = (): EntryFound[] => chosen.toSorted((one, other) => (isBehind(one, other) ? 1 : -1)).slice(0, limit + 1);
  for (const found of findEntries(keeper, diary)) {
    if (after !== null && !isBehind(found, after)) continue;
    if (state !== null && stateOf(found) !== state) continue;
    chosen.push(found);
    if (chosen.length > 2 * limit + ROOM) chosen = cut();
  }
  const kept = cut();
  const page = kept.slice(0, limit);
  const last = page.at(-1);
  return {
    entries: page.map((found) => showEntry(found, keeper.desk.sorting)),
    next: last && page.length < kept.length ? { place: last.place, id: last.id } : null,
  };
};

/** How many entries in sight were taken for what. */
export const countEntries = (keeper: Keeper, diary: string | null): Readonly<Record<EntryState, number>> => {
  const counts: Record<EntryState, number> = { unsorted: 0, booking: 0, test: 0, "not-colour": 0, "not-certain": 0 };
  for (const found of findEntries(keeper, diary)) counts[stateOf(found)]++;
  return counts;
};

/** Entries gathered beyond two pages before they are cut to one: sorting is for many at a time. */
const ROOM = 1_000;

const isBehind = (one: EntryCursor, other: EntryCursor): boolean =>
  one.place > other.place || (one.place === other.place && one.id > other.id);

const stateOf = (found: EntryFound): EntryState => (found.kind === "skipped" ? "not-certain" : found.sorted.kind);

export const showEntry = (found: EntryFound, sorting: Sorting): EntryShown => {
  const { id, diary } = found;
  const { uid, recurrenceId } = found.kind === "skipped" ? found.skipped : found.entry;
  const head = {
    id,
    uid: clip(uid, ENTRY_TEXT_MAX),
    recurrenceId: recurrenceId === null ? null : clip(recurrenceId, ENTRY_TEXT_MAX),
    diary,
    state: stateOf(found),
  };
  if (found.kind === "skipped") {
    const { start, reason, text } = found.skipped;
    const written = clip(start, ENTRY_TEXT_MAX);
    return { ...head, ...NOTHING_KNOWN, written, why: { code: reason, text } };
  }
  const { start, end, date, summary, cancelled } = found.entry;
  const named = found.sorted.kind === "unsorted" ? namedIn(found.entry, sorting) : null;
  const said = { start, end, date, summary: clip(summary, ENTRY_TEXT_MAX), cancelled, named };
  return { ...head, ...NOTHING_KNOWN, ...said, ...takenFor(found.sorted) };
};

const NOTHING_KNOWN = {
  start: null,
  end: null,
  date: null,
  written: null,
  summary: "",
  why: null,
  nearest: null,
  service: null,
  client: null,
  cancelled: false,
  named: null,
} as const;

const namedIn = (entry: Entry, sorting: Sorting): EntryShown["named"] => {
  const certain = findClient(entry, sorting);
  if (certain) return { name: certain.name, isCertain: true };
  const guess = guessClient(entry, sorting);
  return guess === null ? null : { name: guess, isCertain: false };
};

const takenFor = (sorted: Sorted): Pick<EntryShown, "why" | "nearest" | "service" | "client"> => {
  if (sorted.kind === "unsorted") return { why: sorted.why, nearest: sorted.nearest, service: null, client: null };
  const { answered } = sorted;
  return {
    why: answered === undefined ? null : answered.isLike ? LIKE_ANSWERED : ANSWERED,
    nearest: null,
    service: sorted.kind === "booking" ? sorted.service : null,
    client: sorted.kind === "not-colour" ? null : clip(sorted.client.name, ENTRY_TEXT_MAX),
  };
};

const ANSWERED: Why = { code: "answered", text: "A person has said what this entry is." };
const LIKE_ANSWERED: Why = {
  code: "answered-alike",
  text: "A person has said what an entry like this one is. If this one is something else, say so.",
};
