/**
 * Takes readings of a salon's diaries: pushed, pulled, accepted or repeated. A refused or held reading leaves every plan
 * as it was. Readings are numbered when they begin; a lower number never applies after a higher one.
 */
import type { Instant } from "../time/instant.ts";
import { JUMPED_LEAST, REPORT_LIST_MAX } from "../bounds.ts";
import { DiaryIndexer, type Indexed } from "../diary/indexDiary.ts";
import { type Suspicion, suspect } from "../diary/suspicion.ts";
import type { FileRefusal, Horizon, IndexedDiary } from "../diary/types.ts";
import { type Applied, applyBookings } from "./applyBookings.ts";
import { diaryWhy, type PushFault } from "./diaryFaults.ts";
import { countsOf, NOTHING_FOUND, overtakenReport, reportOf, reportsOf, unmoved } from "./diaryReports.ts";
import type { FetchFault, Validators } from "./fetchDiary.ts";
import { holdReading, isSeenAgain, marksOf } from "./holding.ts";
import type { Keeper } from "./keeper.ts";
import { findsNothingNew, horizonOf, readingBy } from "./blockReads.ts";
import { readBlocks } from "./readBlocks.ts";
import { withoutErased } from "./erasedBlocks.ts";
import { change } from "./settle.ts";
import type { Diary, DiaryReport } from "./types.ts";
import { stillUnclear } from "./unclearBookings.ts";

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

export { overtakenReport, reportsOf };
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

/**
 * A diary that could not be fetched or is no calendar: said, and nothing else changes. Where a later reading has been applied
 * meanwhile, not even that: what it found still holds.
 * @param number of the reading; null where it began before the salon knew the diary
 */
export const refuseReading = (
  keeper: Keeper,
  name: string,
  number: number | null,
  fault: FileRefusal | FetchFault | PushFault,
  at: Instant,
): DiaryReport => {
  const known = keeper.state.diaries.get(name);
  const held = known?.held ? { since: known.held.since, why: known.held.why } : null;
  const unclear = known?.report?.unclear ?? [];
  const report = reportOf(name, at, "refused", fault, { ...NOTHING_FOUND, unclear, held });
  if (known && (number ?? 0) < latestTaken(known)) return report;
  keeper.change(at, (work) => {
    const diary = work.diaries.get(name);
    if (!diary) return;
    const since = diary.trouble?.kind === "unreadable" ? diary.trouble.since : at;
    // What is held asks for a decision, and goes on asking while the address does not answer.
    const trouble = diary.held ? diary.trouble : ({ since, kind: "unreadable", why: diaryWhy(fault) } as const);
    work.diaries.set(name, { ...diary, report, trouble });
    work.diariesTouched = true;
  });
  return report;
};

/** Upstream says that nothing has changed since the reading that is applied. */
export const keepReading = (keeper: Keeper, name: string, number: number, at: Instant): DiaryReport => {
  const { report: last } = diaryOf(keeper, name);
  if (number < latestTaken(diaryOf(keeper, name))) return overtakenReport(name, at);
  const found = last ?? NOTHING_FOUND;
  const clean: DiaryReport = { ...found, ...unmoved(found), name, at, status: "unchanged", reason: null, held: null };
  keeper.change(at, (work) => {
    const diary = work.diaries.get(name);
    if (!diary) return;
    const unclear = stillUnclear(clean.unclear, work);
    const report = { ...clean, unclear };
    work.diaries.set(name, { ...diary, appliedReading: number, report, trouble: null, held: null, lastGood: at });
    work.diariesTouched = true;
  });
  // What was said last was of a reading that was not applied: what the diary holds is counted again.
  if (last?.status === "refused" || last?.status === "held") repeatReading(keeper, name, at);
  return diaryOf(keeper, name).report ?? clean;
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
  indexed: IndexedDiary,
  from: TakenFrom,
  at: Instant,
): DiaryReport => {
  const diary = diaryOf(keeper, name);
  const latest = from.isRepeat ? diary.appliedReading : latestTaken(diary);
  if (from.number < latest) return overtakenReport(name, at);
  const { desk } = keeper;
  const { zone } = desk.rules;
  const day = zone.dayAt(at);
  const known = keeper.store.blocks.reads(name);
  const by = readingBy(desk, name, keeper.state.answers);
  const blocks = withoutErased(indexed.blocks, name, { zone, at }, keeper.state);
  if (!from.isRepeat && isSettled(diary) && isOfOneSource(diary, indexed) && findsNothingNew(blocks, known, day, by)) {
    return confirmReading(keeper, diary, from, at);
  }
  const reading = readBlocks(name, blocks, known, indexed.raw, day, by);
  let applied: Applied | undefined;
  let report = reportOf(name, at, "read", null, reading.found);
  const after = change(keeper.state, at, desk, (work) => {
    applied = applyBookings(work, name, reading, reading, horizonOf(day, zone));
    const renewals = from.isRepeat ? diary.renewals : renewalsAfter(diary, applied);
    const fault = reading.hidesNames ? "hides-names" : renewals > 1 ? "uids-renewed" : null;
    const unclear = [...applied.unclear, ...stillUnclear(diary.report?.unclear ?? [], work)].slice(0, REPORT_LIST_MAX);
    const counts = { ...report.counts, ...countsOf(applied) };
    report = { ...report, counts, unclear, reason: fault && diaryWhy({ code: fault }) };
    work.diaries.set(name, {
      ...diary,
      appliedReading: from.number,
      lastGood: at,
      report,
      trouble: null,
      held: from.isRepeat ? diary.held : null,
      calendarName: indexed.calendarName ?? diary.calendarName,
      producer: indexed.producer ?? diary.producer,
      renewals,
      unreadSince: applied.unread.length === 0 ? null : (diary.unreadSince ?? at),
      etag: from.etag,
      lastModified: from.lastModified,
      horizonDay: day,
    });
    work.diariesTouched = true;
  });
  if (!applied) throw new Error("a reading was taken without its bookings");
  const missed = applied.unread.length >= JUMPED_LEAST ? applied.unread : [];
  const gone = { ...applied, lost: [...applied.lost, ...missed] };
  const suspicion = from.trusted ? null : suspectReading(diary, indexed, gone);
  if (suspicion) {
    const { raw, calendarName, producer } = indexed;
    const marks = marksOf(suspicion, gone);
    const holding = { since: at, number: from.number, why: diaryWhy(suspicion), marks, raw, calendarName, producer };
    const settings = keeper.settings.diaries.find((each) => each.name === name);
    if (!isSeenAgain(diary.held, holding, settings)) return holdReading(keeper, diary, reading, holding, report, at);
  }
  keeper.commit(after, () => {
    keeper.store.blocks.save(name, known, reading);
    keeper.store.setMeta(`raw ${name}`, String(indexed.raw));
  });
  return report;
};

/** Of the readings that were applied or are held, the number of the last. */
const latestTaken = ({ appliedReading, held }: Diary): number => Math.max(appliedReading, held?.number ?? 0);

/** The file calls itself what it did, or nothing at all. */
const isOfOneSource = (was: Diary, { calendarName, producer }: IndexedDiary): boolean =>
  (calendarName ?? was.calendarName) === was.calendarName && (producer ?? was.producer) === was.producer;

/** Its last reading is applied, and nothing about it waits. */
const isSettled = ({ trouble, held, lastGood }: Diary): boolean =>
  trouble === null && held === null && lastGood !== null;

const suspectReading = (was: Diary, is: IndexedDiary, applied: Applied): Suspicion | null => {
  const { ahead, lost, moved, entries, entriesMoved } = applied;
  const { raw } = is;
  return suspect({ before: ahead, lost: lost.length, moved: moved.length, entries, entriesMoved, raw, was, is });
};

/** How many readings in a row now most of what lay ahead has come under new UIDs; where nothing lay ahead, as many as before. */
const renewalsAfter = ({ renewals }: Diary, { ahead, renewed }: Applied): number =>
  ahead === 0 ? renewals : renewed * 2 > ahead ? renewals + 1 : 0;

/** The text is, block for block, what was read last: what it was found to say stands, and nothing is made anew. */
const confirmReading = (keeper: Keeper, diary: Diary, from: TakenFrom, at: Instant): DiaryReport => {
  const { name, report: last } = diary;
  const found = last ?? reportOf(name, at, "read", null);
  let report: DiaryReport = { ...found, ...unmoved(found), at, status: "unchanged" };
  keeper.change(at, (work) => {
    report = { ...report, unclear: stillUnclear(report.unclear, work) };
    const { number: appliedReading, etag, lastModified } = from;
    work.diaries.set(name, { ...diary, appliedReading, lastGood: at, report, etag, lastModified });
  });
  return report;
};

/** A person accepts the held reading, that text and no other; undefined where none is held. */
export const acceptHeld = (keeper: Keeper, name: string, at: Instant): DiaryReport | undefined => {
  const { held } = diaryOf(keeper, name);
  if (!held) return undefined;
  const blocks = keeper.store.blocks.of("held", name);
  const from = { number: beginReading(keeper, name, at), trusted: true, etag: null, lastModified: null };
  return takeReading(keeper, name, { ...held, blocks }, from, at);
};

/**
 * Reads the stored text once more: after a change of the rules, or when the horizon has moved on. When the diary was last
 * read, and what troubles it, stay as they were.
 */
export const repeatReading = (keeper: Keeper, name: string, at: Instant): void => {
  const diary = diaryOf(keeper, name);
  if (diary.lastGood === null) return;
  const blocks = keeper.store.blocks.of("blocks", name);
  const raw = Number(keeper.store.meta(`raw ${name}`) ?? blocks.length);
  const { etag, lastModified, lastGood, trouble, report: last, calendarName, producer } = diary;
  const {
    at: _at,
    status: _status,
    ...found
  } = takeReading(
    keeper,
    name,
    { blocks, raw, calendarName, producer },
    { number: diary.appliedReading, trusted: true, isRepeat: true, etag, lastModified },
    at,
  );
  keeper.change(at, (work) => {
    const report = trouble || !last ? last : { ...last, ...found };
    work.diaries.set(name, { ...diaryOf(keeper, name), lastGood, trouble, report });
    work.diariesTouched = true;
  });
};
