/**
 * What the desk's page of the coming weeks costs with 400 open bookings, as a ratio to a bare Hono page of the same bytes in the
 * same workerd, asked through one Durable Object as ours is: `npm run bench:desk`. Twice: as it is asked for again and again while
 * nothing changes, and made anew after each of a number of records. Needs Linux; asserts no time.
 */
import { hashKey, salonOfKey } from "../../src/salon/link.ts";
import { makeSession } from "../../src/web/desk/session.ts";
import { formatDay } from "../../src/time/instant.ts";
import { openConnections, type Question } from "./feed/keepAlive.ts";
import { makeBusySalon } from "./feed/openSalon.ts";
import { LINK_SECRET, startWorker } from "./feed/startWorker.ts";
import { spreadOf, spreadText } from "./measure.ts";

const ROUNDS = Number(process.env["BENCH_ROUNDS"] ?? 9);
const ANEW = Number(process.env["BENCH_ANEW"] ?? 40);
const TURN_MS = 500;
const BARE = ["fetch", "text", "octets"] as const;
const WAYS = ["ours", ...BARE] as const;
type Way = (typeof WAYS)[number];
/** Bookings of eight weeks, so that the longest page shows 400. */
const BOOKINGS_A_WEEK = 50;

const worker = await startWorker();
const connections = await openConnections(worker.origin, 8);

try {
  const now = Math.floor(Date.now() / 1000);
  const { key, call } = await makeBusySalon(worker.origin, now, {
    bookingsAWeek: BOOKINGS_A_WEEK,
    weeksAhead: 9,
    weeks: 36,
  });
  const salon = salonOfKey(key, LINK_SECRET);
  if (salon === undefined) throw new Error("the salon's key is none");
  const session = makeSession({ salon, keyHash: hashKey(key), until: now + 86_400 }, LINK_SECRET);
  const headers = { cookie: `desk=${session}` };
  const path = `/desk/weeks?from=${formatDay(Math.floor(now / 86_400) + 1)}&weeks=8`;
  const answer = await fetch(new URL(path, worker.origin), { headers });
  const body = await answer.text();
  if (answer.status !== 200) throw new Error(`the page answered ${answer.status}`);
  const rows = body.split('class="clock"').length - 1;
  console.log(`coming weeks: ${rows} bookings, ${(Buffer.byteLength(body) / 1000).toFixed(0)} kB`);
  const full = Object.fromEntries(
    [...answer.headers].filter(([name]) => !/^(content-length|transfer-encoding|date)$/.test(name)),
  );
  const held = {
    name: "desk",
    body,
    full: { ...full, etag: '"1"', "last-modified": new Date(0).toUTCString() },
    unchanged: {},
  };
  const put = await fetch(new URL("/bare", worker.origin), { method: "PUT", body: JSON.stringify(held) });
  if (!put.ok) throw new Error(`the bare object answered ${put.status}`);
  for (const way of BARE) {
    const bare = await (await fetch(new URL(`/bare/${way}/desk`, worker.origin))).text();
    if (bare !== body) throw new Error(`bare by ${way} answers something else`);
  }
  const questionOf = (way: Way): Question =>
    way === "ours" ? { path, headers, status: 200 } : { path: `/bare/${way}/desk`, headers: {}, status: 200 };

  const rates: Record<Way, number[]> = { ours: [], fetch: [], text: [], octets: [] };
  for (const way of WAYS) await connections.ask(questionOf(way), TURN_MS);
  for (let round = 0; round < ROUNDS; round++) {
    for (let turn = 0; turn < WAYS.length; turn++) {
      const way = WAYS[(turn + round) % WAYS.length] as Way;
      const { answers, seconds } = await connections.ask(questionOf(way), TURN_MS);
      rates[way].push(seconds / answers);
    }
  }
  const medianOf = (way: Way): number => spreadOf(rates[way]).median;
  const fastest = BARE.reduce((best, way) => (medianOf(way) < medianOf(best) ? way : best));
  const again = rates.ours.map((time, round) => time / (rates[fastest][round] ?? Number.NaN));
  console.log(`unchanged: time ours/bare (by ${fastest}) ${spreadText(spreadOf(again), 2)}`);
  for (const way of WAYS) console.log(`  ${way} ${(medianOf(way) * 1e3).toFixed(2)} ms a page, eight at a time`);

  const { plans } = await call<{ plans: { booking: { uid: string } }[] }>("GET", "/api/salon/plans?limit=1");
  const uid = plans[0]?.booking.uid ?? "";
  // Opened now: one that waits unused is closed from the other end.
  const single = await openConnections(worker.origin, 1);
  const [anew, bare]: [number[], number[]] = [[], []];
  for (let each = 0; each < ANEW; each++) {
    await call("POST", "/api/salon/records", { kind: "note", booking: uid, note: `note ${each}` });
    const before = performance.now();
    await single.ask(questionOf("ours"), 0);
    const between = performance.now();
    await single.ask(questionOf(fastest), 0);
    anew.push(between - before);
    bare.push(performance.now() - between);
  }
  single.close();
  const [ours, theirs] = [spreadOf(anew).median, spreadOf(bare).median];
  console.log(
    `made anew after a record: ours ${ours.toFixed(1)} ms, bare ${theirs.toFixed(1)} ms, ratio of medians ${(ours / theirs).toFixed(1)}`,
  );
  console.log(`Node ${process.version}, ${ROUNDS} rounds; median (10th to 90th hundredth)`);
} finally {
  connections.close();
  await worker.stop();
}
