/**
 * A diary of ten years and 25 MB, 100,000 entries, read and refreshed in pieces as a network gives them, never whole in
 * memory: `npm run bench:big`, which runs it with 96 MB of heap. It prints the peak of the process and asserts nothing but
 * that every entry is accounted for.
 */
import { getHeapStatistics } from "node:v8";
import { DiaryIndexer } from "../../src/diary/indexDiary.ts";
import type { IndexedDiary } from "../../src/diary/types.ts";
import { compileDesk } from "../../src/salon/desk.ts";
import { type BlockRead, findsNothingNew, horizonOf, readingBy } from "../../src/salon/blockReads.ts";
import { type DiaryReading, readBlocks } from "../../src/salon/readBlocks.ts";
import { DAY_SECONDS, type Instant, MINUTE } from "../../src/time/instant.ts";
import { type DiaryPlan, diaryPieces } from "./busyDiary.ts";
import { busySettings } from "./busySalon.ts";

const ENTRIES = Number(process.env["BENCH_ENTRIES"] ?? 100_000);
const now: Instant = Date.UTC(2026, 8, 1, 12) / 1000;
const today = now - (now % DAY_SECONDS);
const place = {
  id: "f3b6c1de-90f4-5a0e-8f5c-5d8f0c7a1b22",
  origin: "https://countback.example",
  linkSecret: "s".repeat(32),
};
const made = await compileDesk(busySettings, place, 2026);
if (!made.ok) throw new Error(made.refusals.map(({ text }) => text).join(" "));
const { zone } = made.desk.rules;
const day = zone.dayAt(now);
const by = readingBy(made.desk);

const tenYears: DiaryPlan = {
  entries: ENTRIES,
  from: today - 3_000 * DAY_SECONDS,
  to: today + 650 * DAY_SECONDS,
  stampedAt: now,
  brief: true,
  moved: null,
};

let bytes = 0;
const index = (plan: DiaryPlan): IndexedDiary => {
  const indexer = new DiaryIndexer(horizonOf(day, zone));
  const encoder = new TextEncoder();
  bytes = 0;
  for (const piece of diaryPieces(plan)) {
    const octets = encoder.encode(piece);
    bytes += octets.length;
    indexer.push(octets);
  }
  const indexed = indexer.end();
  if ("refusal" in indexed) throw new Error(indexed.refusal.code);
  if (indexed.raw !== ENTRIES) throw new Error(`${indexed.raw} entries of ${ENTRIES} were counted`);
  return indexed;
};

let heapPeak = 0;
const note = (what: string, began: number): void => {
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  heapPeak = Math.max(heapPeak, heapUsed);
  const mega = (octets: number): string => `${(octets / 1e6).toFixed(0)} MB`;
  console.log(
    `${what.padEnd(34)} ${(performance.now() - began).toFixed(0).padStart(5)} ms  heap ${mega(heapUsed)}, buffers ${mega(arrayBuffers)}`,
  );
};

const read = (plan: DiaryPlan, known: ReadonlyMap<string, BlockRead>): DiaryReading => {
  const { blocks, raw } = index(plan);
  return readBlocks("main", blocks, known, raw, day, by);
};
/** What a salon keeps of a reading: not the blocks' octets. */
const keep = ({ blocks }: DiaryReading): Map<string, BlockRead> =>
  new Map(blocks.map((each) => [each.read.uid, each.read]));

let began = performance.now();
const first = read(tenYears, new Map());
const known = keep(first);
note("first read", began);
console.log(first.found.counts);

began = performance.now();
const isSame = findsNothingNew(index({ ...tenYears, stampedAt: now + 15 * MINUTE }).blocks, known, day, by);
note("unchanged, stamps renewed", began);
if (!isSame) throw new Error("an unchanged diary was taken for a changed one");

began = performance.now();
const moved = read({ ...tenYears, moved: Math.floor((ENTRIES * 3_010) / 3_650) }, known);
note("one entry moved", began);
const news = moved.blocks.filter(({ isNew }) => isNew).length;
if (news !== 1) throw new Error(`${news} blocks were read anew, not 1`);
const { heap_size_limit: limit } = getHeapStatistics();
console.log(
  `${(bytes / 1e6).toFixed(1)} MB; heap at most ${(heapPeak / 1e6).toFixed(0)} MB as noted, of ${(limit / 1e6).toFixed(0)} MB allowed; peak of the process ${(process.resourceUsage().maxRSS / 1000).toFixed(0)} MB`,
);
