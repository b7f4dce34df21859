/** A reading that looks wrong: kept aside, and when it counts as seen again. */
import { PUSH_CONFIRM_MINUTES } from "../bounds.ts";
import { hashText } from "../diary/hashText.ts";
import { isSameHolding, type Suspicion, type SuspicionCode } from "../diary/suspicion.ts";
import type { DiarySettings } from "../settings.ts";
import { type Instant, MINUTE } from "../time/instant.ts";
import type { Applied } from "./applyBookings.ts";
import type { Keeper } from "./keeper.ts";
import type { DiaryReading } from "./readBlocks.ts";
import type { Diary, DiaryReport, HeldReading } from "./types.ts";

/** Reasons that no booking speaks for: which other name it is says nothing, since some exports write the day into it. */
const OF_SOURCE: ReadonlySet<SuspicionCode> = new Set(["calendar-renamed", "producer-changed"]);

/** Ten thousand bookings may be lost, and each is kept as eight digits of its hash. */
const markOf = (text: string): string => hashText(text).slice(0, 8);

/** What makes one suspicious reading another than the next. */
export const marksOf = (
  { code, also }: Suspicion,
  { lost, moved }: Pick<Applied, "lost" | "moved">,
): readonly string[] => {
  const codes = [code, ...also];
  const moves = codes.includes("dates-jumped") ? moved : [];
  return [
    ...codes.filter((each) => OF_SOURCE.has(each)),
    ...lost.map((uid) => markOf(`lost ${uid}`)),
    ...moves.map(({ uid, start }) => markOf(`moved ${uid} ${start}`)),
  ];
};

/** Seen again one poll interval later, 15 minutes if the diary is pushed, and no worse than it was. */
export const isSeenAgain = (
  held: HeldReading | null,
  again: Pick<HeldReading, "since" | "marks">,
  settings: DiarySettings | undefined,
): boolean => {
  const minutes = settings?.url ? settings.pollMinutes : PUSH_CONFIRM_MINUTES;
  return held !== null && again.since >= held.since + minutes * MINUTE && isSameHolding(held.marks, again.marks);
};

/** Keeps what was read beside what is applied, and says so. */
export const holdReading = (
  keeper: Keeper,
  last: Diary,
  reading: DiaryReading,
  holding: HeldReading,
  found: DiaryReport,
  at: Instant,
): DiaryReport => {
  const { name } = last;
  // Seen once more before its time it waits no longer; one that would do more, or something else, waits anew.
  const since = last.held && isSameHolding(last.held.marks, holding.marks) ? last.held.since : at;
  const held = { ...holding, since };
  const { why } = held;
  const unclear = last.report?.unclear ?? [];
  const report: DiaryReport = { ...found, at, status: "held", reason: why, unclear, held: { since, why } };
  keeper.change(
    at,
    (work) => {
      const diary = work.diaries.get(name);
      if (!diary) return;
      work.diaries.set(name, { ...diary, report, held, trouble: { since, kind: "held", why } });
      work.diariesTouched = true;
    },
    () => keeper.store.blocks.saveHeld(name, [...reading.blocks.map(({ block }) => block), ...reading.leftOut]),
  );
  return report;
};
