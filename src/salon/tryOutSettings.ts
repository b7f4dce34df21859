/** What a salon would be under other settings: as after saving them, but nothing is written. Pure but for reading storage. */
import type { Settings } from "../settings.ts";
import type { Instant } from "../time/instant.ts";
import { applyBookings } from "./applyBookings.ts";
import { horizonOf, readingBy } from "./blockReads.ts";
import type { SalonDesk } from "./desk.ts";
import { forgetMovedDiaries, matchDiaries } from "./diariesOfSettings.ts";
import { withoutErased } from "./erasedBlocks.ts";
import type { Keeper } from "./keeper.ts";
import { readBlocks } from "./readBlocks.ts";
import { change } from "./settle.ts";
import type { State } from "./types.ts";

export interface TriedOut {
  readonly state: State;
  /** The same before any diary was read anew: nobody and nothing has come in yet. */
  readonly unread: State;
  /** Entries that nothing is understood of, of all diaries; null where no diary had to be sorted anew. */
  readonly unsorted: number | null;
}

/** @param desk made of `settings` */
export const tryOutSettings = (keeper: Keeper, settings: Settings, desk: SalonDesk, now: Instant): TriedOut => {
  const before = keeper.desk;
  const unread = change(keeper.state, now, desk, (work) => {
    matchDiaries(work, settings);
    forgetMovedDiaries(work, before.rules.settings, settings);
    work.touched = "all";
  });
  const isSortedAlike = desk.print === before.print && desk.sortingPrint === before.sortingPrint;
  if (isSortedAlike) return { state: unread, unread, unsorted: null };
  let state = unread;
  let unsorted = 0;
  for (const { name, lastGood } of state.diaries.values()) {
    if (lastGood === null) continue;
    const tried = readAnew(keeper, state, name, desk, now);
    state = tried.state;
    unsorted += tried.unsorted;
  }
  return { state, unread, unsorted };
};

/** The stored text of one diary as these settings read it. */
const readAnew = (
  { store }: Keeper,
  state: State,
  name: string,
  desk: SalonDesk,
  at: Instant,
): { readonly state: State; readonly unsorted: number } => {
  const { zone } = desk.rules;
  const day = zone.dayAt(at);
  const all = store.blocks.of("blocks", name);
  const raw = Number(store.meta(`raw ${name}`) ?? all.length);
  const blocks = withoutErased(all, name, { zone, at }, state);
  const by = readingBy(desk, name, state.answers);
  const reading = readBlocks(name, blocks, store.blocks.reads(name), raw, day, by);
  const after = change(state, at, desk, (work) => {
    applyBookings(work, name, reading, reading, horizonOf(day, zone));
  });
  return { state: after, unsorted: reading.found.counts["unsorted"] ?? 0 };
};
