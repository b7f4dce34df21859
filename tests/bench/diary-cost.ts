/**
 * What reading a diary costs, as ratios in one run to the plain way. `npm run bench`, in Node, since clocks stand still
 * inside workerd; it prints and asserts nothing.
 *
 * **The plain way** is what one would write first: node-ical over the whole text, a plan for every entry, and one feed of
 * all their events with ical-generator, at every refresh. Its events carry the same words as ours, made beforehand and
 * not counted; it sorts nothing, knows no clients and keeps no stamps.
 *
 * **First read** is the whole of ours, from octets to the salon's feed: blocks, entries, sorting, clients, plans, what all
 * feeds say with stamps, and the salon's feed rendered. **Unchanged** is the same diary again with renewed DTSTAMPs, up to
 * the knowledge that nothing is new. **One changed** is a refresh in which one booking has moved by a quarter of an hour,
 * up to the salon's feed rendered again. Storage is not in it: it is measured with the service, `npm run bench:service`.
 *
 * **Growth** is the first reading of diaries over ten years, up to their bookings, and the refresh of each unchanged.
 */
import generate from "ical-generator";
import { sync } from "node-ical";
import { type Indexed, indexDiary } from "../../src/diary/indexDiary.ts";
import type { IndexedDiary } from "../../src/diary/types.ts";
import { countBack } from "../../src/plan/countBack.ts";
import { loadHolidays } from "../../src/plan/holidays.ts";
import type { Plan } from "../../src/plan/types.ts";
import { applyBookings } from "../../src/salon/applyBookings.ts";
import { compileDesk, type SalonDesk } from "../../src/salon/desk.ts";
import { emptyState } from "../../src/salon/emptyState.ts";
import { newDiary } from "../../src/salon/newDiary.ts";
import { type BlockRead, findsNothingNew, horizonOf, readingBy } from "../../src/salon/blockReads.ts";
import { type DiaryReading, readBlocks } from "../../src/salon/readBlocks.ts";
import { renderFeed } from "../../src/salon/renderFeed.ts";
import { change } from "../../src/salon/settle.ts";
import type { State } from "../../src/salon/types.ts";
import { DAY_SECONDS, type Instant, MINUTE } from "../../src/time/instant.ts";
import { type DiaryPlan, diaryText } from "./busyDiary.ts";
import { busySettings, COUNTRY } from "./busySalon.ts";
import { cpuOf, spreadOf, spreadText, takeTurns } from "./measure.ts";

const BOOKINGS = Number(process.env["BENCH_BOOKINGS"] ?? 10_000);
const ROUNDS = Number(process.env["BENCH_DIARY_ROUNDS"] ?? 5);
const GROWTH = [1_000, 2_000, 4_000, 8_000, 16_000, 32_000, 64_000, 100_000];

const now: Instant = Date.UTC(2026, 8, 1, 12) / 1000;
const today = now - (now % DAY_SECONDS);
const made = await compileDesk(
  busySettings,
  { id: "f3b6c1de-90f4-5a0e-8f5c-5d8f0c7a1b22", origin: "https://countback.example", linkSecret: "s".repeat(32) },
  2026,
);
if (!made.ok) throw new Error(made.refusals.map(({ text }) => text).join(" "));
const { desk }: { readonly desk: SalonDesk } = made;
await loadHolidays(COUNTRY.country, COUNTRY.region, 2024, 2029);
const { zone } = desk.rules;
const day = zone.dayAt(now);
const horizon = horizonOf(day, zone);
const by = readingBy(desk);

const bytesOf = (plan: DiaryPlan): Uint8Array => new TextEncoder().encode(diaryText(plan));
const bookedAhead: DiaryPlan = {
  entries: BOOKINGS,
  from: today - 20 * DAY_SECONDS,
  to: today + 390 * DAY_SECONDS,
  stampedAt: now,
  brief: false,
  moved: null,
};
const before = bytesOf(bookedAhead);
const again = bytesOf({ ...bookedAhead, stampedAt: now + 15 * MINUTE });
const moved = bytesOf({ ...bookedAhead, stampedAt: now + 15 * MINUTE, moved: Math.floor(BOOKINGS / 2) });
const text = new TextDecoder().decode(before);

const whole = (indexed: Indexed): IndexedDiary => {
  if ("refusal" in indexed) throw new Error(indexed.refusal.code);
  return indexed;
};
const knownOf = (reading: DiaryReading): Map<string, BlockRead> =>
  new Map(reading.blocks.map(({ read }) => [read.uid, read]));

const readFirst = (bytes: Uint8Array, known: ReadonlyMap<string, BlockRead>): DiaryReading => {
  const { blocks, raw } = whole(indexDiary(bytes, horizon));
  return readBlocks("main", blocks, known, raw, day, by);
};
const apply = (state: State, reading: DiaryReading, at: Instant): State =>
  change(state, at, desk, (work) => {
    applyBookings(work, "main", reading, reading, horizon);
  });
const fresh: State = { ...emptyState(now), diaries: new Map([["main", newDiary("main", now)]]) };

const first = readFirst(before, new Map());
const known = knownOf(first);
const state = apply(fresh, first, now);
renderFeed("salon", state, desk, now);
const words = new Map([...state.events.values()].map(({ content }) => [content.uid, content]));
let kept = 0;

const planPlainly = (): void => {
  const parsed = sync.parseICS(text);
  const calendar = generate({ name: busySettings.name });
  for (const event of Object.values(parsed)) {
    if (event?.type !== "VEVENT") continue;
    const { uid, start, end, summary } = event;
    const client = { id: "c1", name: "" };
    const booking = {
      uid,
      start: start.getTime() / 1000,
      end: (end ?? start).getTime() / 1000,
      summary: typeof summary === "string" ? summary : "",
      service: "Colour",
      diary: "main",
      client,
      cancelled: false,
    };
    const plan: Plan = countBack({ booking, facts: [], samePerson: true, now }, desk.rules);
    for (const step of plan.steps) {
      const said = words.get(step.uid);
      calendar.createEvent({
        id: step.uid,
        start: new Date(step.opens * 1000),
        end: new Date(step.due * 1000),
        summary: said?.summary ?? step.kind,
        description: said?.description ?? "",
      });
    }
  }
  kept += Buffer.byteLength(calendar.toString());
};

/** Octets of the salon's feed, so that its text is really put together. */
const octetsOf = (after: State): number => Buffer.byteLength(renderFeed("salon", after, desk, now).body);

const taken = takeTurns(
  {
    plain: planPlainly,
    first: () => {
      kept += octetsOf(apply(fresh, readFirst(before, new Map()), now));
    },
    unchanged: () => {
      if (!findsNothingNew(whole(indexDiary(again, horizon)).blocks, known, day, by)) {
        throw new Error("an unchanged diary was taken for a changed one");
      }
    },
    changed: () => {
      const after = apply(state, readFirst(moved, known), now + 15 * MINUTE);
      if (after.events === state.events) throw new Error("a moved booking was not seen");
      kept += octetsOf(after);
    },
  },
  ROUNDS,
  2,
);
const ratio = (name: "first" | "unchanged" | "changed"): string =>
  spreadText(spreadOf(taken[name].map((cost, round) => cost / (taken.plain[round] ?? Number.NaN))), 3);

console.log(
  `\nReading a diary of ${BOOKINGS} bookings ahead, ${(before.length / 1e6).toFixed(1)} MB; median (10 % to 90 %)`,
);
console.log(`plain way      ${(spreadOf(taken.plain).median / 1000).toFixed(0)} ms of CPU`);
console.log(`first read     ${ratio("first")} of the plain way   (aim 1)`);
console.log(`one changed    ${ratio("changed")} of the plain way   (aim 0.05)`);
console.log(`unchanged      ${ratio("unchanged")} of the plain way   (aim 0.03)`);

console.log("\nGrowth: entries over ten years, milliseconds of CPU, and times the cost of half as many (aim 2.2)");
let [lastFirst, lastAgain] = [Number.NaN, Number.NaN];
for (const entries of GROWTH) {
  const tenYears = { from: today - 3_000 * DAY_SECONDS, to: today + 650 * DAY_SECONDS };
  const bytes = bytesOf({ ...bookedAhead, ...tenYears, entries, brief: true });
  const costs = Array.from({ length: 5 }, () => {
    let reading: DiaryReading | undefined;
    const reads = cpuOf(() => {
      reading = readFirst(bytes, new Map());
    });
    const knownHere = knownOf(reading as DiaryReading);
    const refreshes = cpuOf(() => {
      if (!findsNothingNew(whole(indexDiary(bytes, horizon)).blocks, knownHere, day, by)) throw new Error("not equal");
    });
    return { reads, refreshes };
  });
  const [reads, refreshes] = [
    spreadOf(costs.map((each) => each.reads)).median,
    spreadOf(costs.map((each) => each.refreshes)).median,
  ];
  const times = (cost: number, last: number): string => (Number.isNaN(last) ? "" : `×${(cost / last).toFixed(2)}`);
  console.log(
    `${String(entries).padStart(7)}  ${(bytes.length / 1e6).toFixed(1).padStart(5)} MB  first ${(reads / 1000).toFixed(0).padStart(5)} ${times(reads, lastFirst).padEnd(6)}  unchanged ${(refreshes / 1000).toFixed(0).padStart(5)} ${times(refreshes, lastAgain)}`,
  );
  [lastFirst, lastAgain] = [reads, refreshes];
}
if (kept === 0) throw new Error("nothing was written");
