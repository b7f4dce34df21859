/**
 * Takes readings of a salon's diaries: pushed, pulled, accepted or repeated. A refused or held reading leaves every plan
 * as it was. Readings are numbered when they begin; a lower number never applies after a higher one.
 */
import { MINUTE, type Instant } from "../time/instant.ts";
import { PUSH_CONFIRM_MINUTES } from "../bounds.ts";
import { DiaryIndexer, type Indexed } from "../diary/indexDiary.ts";
import { suspect, type Suspicion } from "../diary/suspicion.ts";
import type { FileRefusal, Horizon, IndexedDiary } from "../diary/types.ts";
import { applyBookings } from "./applyBookings.ts";
import { type DiaryFault, diaryWhy } from "./diaryFaults.ts";
import type { FetchFault, Validators } from "./fetchDiary.ts";
import type { Keeper } from "./keeper.ts";
import { type DiaryReading, findsNothingNew, horizonOf, readBlocks, readingBy } from "./readBlocks.ts";
import { change } from "./settle.ts";
import type { Diary, DiaryReport, State } from "./types.ts";

/** Reads a body to its end, whatever it holds; `undefined` where the sender broke off. */
export const indexStream = async (body: ReadableStream<Uint8Array>, horizon: Horizon): Promise<Indexed | undefined> => {
  const indexer = new DiaryIndexer(horizon);
  try {
    for await (const chunk of body) indexer.push(chunk);
  } catch {
    return undefined;
  }
  return indexer.end();
};

export type { Indexed };

/** Numbers a reading that begins. */
export const beginReading = (keeper: Keeper, name: string, at: Instant): number => {
  const number = diaryOf(keeper, name).begun + 1;
  keeper.change(at, (work) => work.diaries.set(name, { ...diaryOf(keeper, name), begun: number }));
  return number;
};

export const diaryOf = (keeper: Keeper, name: string): Diary => {
  const diary = keeper.state.diaries.get(name);
  if (!diary) throw new Error("a reading of a diary that the salon does not keep");
  return diary;
};

/** The last report of every diary; one never read has a report that says so. */
export const reportsOf = ({ diaries, settledTo }: State): readonly DiaryReport[] =>
  [...diaries.values()].map(
    ({ name, report }) => report ?? { ...NOTHING_FOUND, name, at: settledTo, status: "never-read", reason: NEVER_READ },
  );

const NEVER_READ = { code: "never-read", text: "This diary has not been read yet." };

const NOTHING_FOUND: DiaryReading["found"] = { counts: {}, skipped: [], unsorted: [] };

const reportOf = (
  name: string,
  at: Instant,
  status: DiaryReport["status"],
  fault: DiaryFault | null,
  found: DiaryReading["found"] = NOTHING_FOUND,
): DiaryReport => ({ name, at, status, reason: fault && diaryWhy(fault), ...found });

/** Of a reading that a later one has passed: it changes nothing. */
export const overtakenReport = (name: string, at: Instant): DiaryReport =>
  reportOf(name, at, "unchanged", { code: "overtaken" });

/**
 * A diary that could not be fetched or is no calendar: said, and nothing else changes. Where a later reading has been applied
 * meanwhile, not even that: what it found still holds.
 * @param number of the reading; null where it began before the salon knew the diary
 */
export const refuseReading = (
  keeper: Keeper,
  name: string,
  number: number | null,
  fault: FileRefusal | FetchFault,
  at: Instant,
): DiaryReport => {
  const report = reportOf(name, at, "refused", fault);
  if ((number ?? 0) < (keeper.state.diaries.get(name)?.appliedReading ?? 0)) return report;
  keeper.change(at, (work) => {
    const diary = work.diaries.get(name);
    if (!diary) return;
    const since = diary.trouble?.kind === "unreadable" ? diary.trouble.since : at;
    const trouble = { since, kind: "unreadable", why: diaryWhy(fault) } as const;
    work.diaries.set(name, { ...diary, report, trouble });
    work.diariesTouched = true;
  });
  return report;
};

/** Upstream says that nothing has changed since the reading that is applied. */
export const keepReading = (keeper: Keeper, name: string, number: number, at: Instant): DiaryReport => {
  const { report: last, appliedReading } = diaryOf(keeper, name);
  if (number < appliedReading) return overtakenReport(name, at);
  const report = reportOf(name, at, "unchanged", null, last ?? NOTHING_FOUND);
  const { counts, skipped, unsorted } = report;
  const clean: DiaryReport = { name, at, status: "unchanged", reason: null, counts, skipped, unsorted };
  keeper.change(at, (work) => {
    const diary = work.diaries.get(name);
    if (!diary) return;
    work.diaries.set(name, { ...diary, appliedReading: number, report: clean, trouble: null, lastGood: at });
    work.diariesTouched = true;
  });
  return clean;
};

export interface TakenFrom extends Validators {
  readonly number: number;
  /** A person has accepted it, or the salon itself asks for the same text again: no suspicion. */
  readonly trusted: boolean;
  /** The stored text once more: what is held stays held. */
  readonly isRepeat?: boolean;
}

/** Applies what was read, or holds it where it looks wrong. */
export const takeReading = (
  keeper: Keeper,
  name: string,
  indexed: Pick<IndexedDiary, "blocks" | "raw">,
  from: TakenFrom,
  at: Instant,
): DiaryReport => {
  const diary = diaryOf(keeper, name);
  if (from.number < diary.appliedReading) return overtakenReport(name, at);
  const { desk } = keeper;
  const { zone } = desk.rules;
  const day = zone.dayAt(at);
  const known = keeper.store.reads(name);
  const by = readingBy(desk);
  if (!from.isRepeat && isSettled(diary) && findsNothingNew(indexed.blocks, known, day, by)) {
    return confirmReading(keeper, diary, from, at);
  }
  const reading = readBlocks(name, indexed.blocks, known, indexed.raw, day, by);
  let loss: Suspicion | null = null;
  let report = reportOf(name, at, "read", reading.hidesNames ? { code: "hides-names" } : null, reading.found);
  const after = change(keeper.state, at, desk, (work) => {
    const { ahead, vanished, lost, unclear } = applyBookings(work, name, reading, reading, horizonOf(day, zone));
    loss = suspect(ahead, ahead - lost, indexed.raw);
    report = { ...report, counts: { ...report.counts, vanished, unclear: unclear.length } };
    work.diaries.set(name, {
      ...diary,
      appliedReading: from.number,
      lastGood: at,
      report,
      trouble: null,
      etag: from.etag,
      lastModified: from.lastModified,
      horizonDay: day,
    });
    work.diariesTouched = true;
  });
  if (loss && !from.trusted && !isSeenAgain(keeper, diary, at)) return holdReading(keeper, name, reading, loss, at);
  keeper.commit(after, () => {
    keeper.store.saveBlocks(name, known, reading);
    if (!from.isRepeat) keeper.store.dropHeld(name);
    keeper.store.setMeta(`raw ${name}`, String(indexed.raw));
  });
  return report;
};

/** Its last reading is applied, and nothing about it waits. */
const isSettled = ({ trouble, lastGood }: Diary): boolean => trouble === null && lastGood !== null;

/** The text is, block for block, what was read last: what it was found to say stands, and nothing is made anew. */
const confirmReading = (keeper: Keeper, diary: Diary, from: TakenFrom, at: Instant): DiaryReport => {
  const { name, report: last } = diary;
  const report: DiaryReport = { ...(last ?? reportOf(name, at, "read", null)), at, status: "read" };
  keeper.change(at, (work) => {
    const { number: appliedReading, etag, lastModified } = from;
    work.diaries.set(name, { ...diary, appliedReading, lastGood: at, report, etag, lastModified });
  });
  return report;
};

/** A held reading counts as seen again one poll interval later, 15 minutes if the diary is pushed. */
const isSeenAgain = (keeper: Keeper, { name, trouble }: Diary, at: Instant): boolean => {
  const settings = keeper.settings.diaries.find((each) => each.name === name);
  const minutes = settings?.url ? settings.pollMinutes : PUSH_CONFIRM_MINUTES;
  return trouble?.kind === "held" && at >= trouble.since + minutes * MINUTE;
};

const holdReading = (
  keeper: Keeper,
  name: string,
  reading: DiaryReading,
  loss: Suspicion,
  at: Instant,
): DiaryReport => {
  const report = reportOf(name, at, "held", loss, reading.found);
  keeper.change(
    at,
    (work) => {
      const diary = work.diaries.get(name);
      if (!diary) return;
      const since = diary.trouble?.kind === "held" ? diary.trouble.since : at;
      work.diaries.set(name, { ...diary, report, trouble: { since, kind: "held", why: diaryWhy(loss) } });
      work.diariesTouched = true;
    },
    () => {
      keeper.store.saveHeld(name, [...reading.blocks.map(({ block }) => block), ...reading.leftOut]);
      keeper.store.setMeta(`raw held ${name}`, String(reading.found.counts["raw"] ?? 0));
    },
  );
  return report;
};

/** A person accepts the held reading; undefined where none is held. */
export const acceptHeld = (keeper: Keeper, name: string, at: Instant): DiaryReport | undefined => {
  if (diaryOf(keeper, name).trouble?.kind !== "held") return undefined;
  const blocks = keeper.store.blocks("held", name);
  const raw = Number(keeper.store.meta(`raw held ${name}`) ?? 0);
  const from = { number: beginReading(keeper, name, at), trusted: true, etag: null, lastModified: null };
  return takeReading(keeper, name, { blocks, raw }, from, at);
};

/**
 * Reads the stored text once more: after a change of the rules, or when the horizon has moved on. When the diary was last
 * read, and what troubles it, stay as they were.
 */
export const repeatReading = (keeper: Keeper, name: string, at: Instant): void => {
  const diary = diaryOf(keeper, name);
  if (diary.lastGood === null) return;
  const blocks = keeper.store.blocks("blocks", name);
  const raw = Number(keeper.store.meta(`raw ${name}`) ?? blocks.length);
  const { etag, lastModified, appliedReading, lastGood, trouble, report: last } = diary;
  const {
    at: _at,
    status: _status,
    ...found
  } = takeReading(
    keeper,
    name,
    { blocks, raw },
    { number: appliedReading, trusted: true, isRepeat: true, etag, lastModified },
    at,
  );
  keeper.change(at, (work) => {
    const report = trouble || !last ? last : { ...last, ...found };
    work.diaries.set(name, { ...diaryOf(keeper, name), lastGood, trouble, report });
    work.diariesTouched = true;
  });
};
