/** What a reading of a diary is said to have found, done or been refused for. Pure; makes no words of its own. */
import type { Instant } from "../time/instant.ts";
import type { Applied } from "./applyBookings.ts";
import { type DiaryFault, diaryWhy } from "./diaryFaults.ts";
import type { DiaryReading } from "./readBlocks.ts";
import type { DiaryReport, State } from "./types.ts";

/** The last report of every diary; one never read has a report that says so. */
export const reportsOf = ({ diaries, settledTo }: State): readonly DiaryReport[] =>
  [...diaries.values()].map(({ name, report, held }) => ({
    ...(report ?? { ...NOTHING_FOUND, name, at: settledTo, status: "never-read", reason: NEVER_READ }),
    held: held && { since: held.since, why: held.why },
  }));

const NEVER_READ = { code: "never-read", text: "This diary has not been read yet." };

export const NOTHING_FOUND = { counts: {}, skipped: [], unsorted: [], unclear: [], held: null } as const;

export const reportOf = (
  name: string,
  at: Instant,
  status: DiaryReport["status"],
  fault: DiaryFault | null,
  found: DiaryReading["found"] & Partial<Pick<DiaryReport, "unclear" | "held">> = NOTHING_FOUND,
): DiaryReport => ({ ...NOTHING_FOUND, name, at, status, reason: fault && diaryWhy(fault), ...found });

/** Of a reading that a later one has passed: it changes nothing. */
export const overtakenReport = (name: string, at: Instant): DiaryReport =>
  reportOf(name, at, "unchanged", { code: "overtaken" });

/** What a reading changes. */
export const countsOf = ({ ahead, added, vanished, lost, unread, moved, renewed, unclear }: Applied) => ({
  ahead,
  added,
  vanished,
  lost: lost.length,
  unread: unread.length,
  moved: moved.length,
  renewed,
  unclear: unclear.length,
});

/** The counts of a reading that changed nothing. */
export const unmoved = ({ counts }: Pick<DiaryReport, "counts">): Pick<DiaryReport, "counts"> => ({
  counts: { ...counts, added: 0, vanished: 0, lost: 0, moved: 0, renewed: 0, unclear: 0 },
});
