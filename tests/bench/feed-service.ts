/**
 * How many answers a second the service gives for a client's and a salon's feed, 200 and 304, as a ratio to a bare Hono
 * that answers the same bytes and headers through one Durable Object in the same workerd: `npm run bench:feed`. Needs
 * Linux; asserts that both answer the same, and no time.
 *
 * The two take turns of half a second on the same connections, another first in each round, so that a busy machine burdens
 * both alike. Of the three ways to a Durable Object the fastest is the reference.
 */
import { openConnections, type Question } from "./feed/keepAlive.ts";
import { openSalon } from "./feed/openSalon.ts";
import { startWorker } from "./feed/startWorker.ts";
import type { Held } from "./feed/worker.ts";
import { spreadOf, spreadText } from "./measure.ts";

const ROUNDS = Number(process.env["BENCH_ROUNDS"] ?? 9);
const CONNECTIONS = 8;
const TURN_MS = 500;
const WARM_UP_MS = 1_000;
const BARE = ["fetch", "text", "octets"] as const;
const WAYS = ["ours", ...BARE] as const;
type Way = (typeof WAYS)[number];

/** Headers of the connection and of this very answer, which are no part of what is compared. */
const OWN = new Set(["content-length", "transfer-encoding", "connection", "keep-alive", "date"]);
const fieldsOf = (answer: Response): Record<string, string> =>
  Object.fromEntries([...answer.headers].filter(([name]) => !OWN.has(name)));

const worker = await startWorker();
const connections = await openConnections(worker.origin, CONNECTIONS);

interface Feed {
  readonly name: string;
  readonly path: string;
  readonly held: Held;
}

const get = async (path: string, etag?: string): Promise<Response> => {
  const answer = await fetch(
    new URL(path, worker.origin),
    etag === undefined ? {} : { headers: { "if-none-match": etag } },
  );
  if (answer.status !== (etag === undefined ? 200 : 304)) throw new Error(`a feed answered ${answer.status}`);
  return answer;
};

const fetchHeld = async (name: string, path: string): Promise<Held> => {
  const answer = await get(path);
  const full = fieldsOf(answer);
  return { name, body: await answer.text(), full, unchanged: fieldsOf(await get(path, full["etag"] ?? "")) };
};

/** Gives the bare object the feed as it is now, and makes sure that each way answers what the product does. */
const holdFeed = async (name: string, path: string): Promise<Feed> => {
  const held = await fetchHeld(name, path);
  const put = await fetch(new URL("/bare", worker.origin), { method: "PUT", body: JSON.stringify(held) });
  if (!put.ok) throw new Error(`the bare object answered ${put.status}`);
  for (const way of BARE) {
    const again = await fetchHeld(name, `/bare/${way}/${name}`);
    if (JSON.stringify(again) !== JSON.stringify(held)) throw new Error(`bare by ${way} answers something else`);
  }
  return { name, path, held };
};

const questionOf = ({ name, path, held }: Feed, way: Way, status: number): Question => ({
  path: way === "ours" ? path : `/bare/${way}/${name}`,
  headers: status === 304 ? { "if-none-match": held.full["etag"] ?? "" } : {},
  status,
});

interface Taken {
  /** Answers a second. */
  readonly rates: number[];
  /** CPU of the runtime for one answer, in microseconds. */
  readonly costs: number[];
}
const empty = (): Record<Way, Taken> => {
  const none = (): Taken => ({ rates: [], costs: [] });
  return { ours: none(), fetch: none(), text: none(), octets: none() };
};

const measure = async (feed: Feed, status: number, round: number, into: Record<Way, Taken>): Promise<void> => {
  for (let turn = 0; turn < WAYS.length; turn++) {
    const way = WAYS[(turn + round) % WAYS.length] as Way;
    const before = worker.cpu();
    const { answers, seconds } = await connections.ask(questionOf(feed, way, status), TURN_MS);
    into[way].rates.push(answers / seconds);
    into[way].costs.push((worker.cpu() - before) / answers);
  }
};

const report = (title: string, taken: Record<Way, Taken>): void => {
  const rateOf = (way: Way): number => spreadOf(taken[way].rates).median;
  const fastest = BARE.reduce((best, way) => (rateOf(way) > rateOf(best) ? way : best));
  const ratio = (of: keyof Taken): string =>
    spreadText(spreadOf(taken.ours[of].map((value, round) => value / (taken[fastest][of][round] ?? NaN))), 2);
  const each = (way: Way): string =>
    `${way} ${rateOf(way).toFixed(0)}/s ${spreadOf(taken[way].costs).median.toFixed(0)} µs`;
  console.log(`${title}: ours/bare throughput ${ratio("rates")}`);
  console.log(`  bare by ${fastest}; CPU ours/bare ${ratio("costs")}; ${WAYS.map(each).join(", ")}`);
};

try {
  const { clientFeed, salonFeed } = await openSalon(worker.origin, Math.floor(Date.now() / 1000));
  const paths = { client: clientFeed, salon: salonFeed };
  const cases = (["client", "salon"] as const).flatMap((name) =>
    [200, 304].map((status) => ({ name, status, taken: empty() })),
  );
  for (const name of ["client", "salon"] as const) {
    const feed = await holdFeed(name, paths[name]);
    const events = feed.held.body.split("BEGIN:VEVENT").length - 1;
    console.log(`${name} feed: ${events} events, ${(Buffer.byteLength(feed.held.body) / 1000).toFixed(1)} kB`);
    for (const way of WAYS) {
      for (const status of [200, 304]) await connections.ask(questionOf(feed, way, status), WARM_UP_MS / 2);
    }
  }
  for (let round = 0; round < ROUNDS; round++) {
    for (const { name, status, taken } of cases) {
      // Anew each time: a booking whose hour strikes changes its feeds.
      await measure(await holdFeed(name, paths[name]), status, round, taken);
    }
  }
  console.log(`Node ${process.version}, ${CONNECTIONS} connections, ${ROUNDS} rounds; median (10th to 90th hundredth)`);
  for (const { name, status, taken } of cases) report(`${name} feed ${status}`, taken);
} finally {
  connections.close();
  await worker.stop();
}
