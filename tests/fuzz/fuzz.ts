/**
 * `npm run fuzz -- [COUNT] [--seed N] [--folder FOLDER] [--compare COUNT]`: mutants through the diary reader, one a seed, from
 * N on, judged by tests/fuzz/judge.ts. A thread does the work; where it is silent, or its memory is full, it is ended, and the
 * seed it stood at is a fault. The first mutants, as many as `--compare` says, are read again under other host zones.
 * Exit status 1: a law was broken. `npm run fuzz -- 1 --seed N` makes that mutant again; `--show` prints it instead.
 */
import { spawnSync } from "node:child_process";
import { once } from "node:events";
import { join } from "node:path";
import { Worker } from "node:worker_threads";
import { Dice } from "./Dice.ts";
import { mutate } from "./mutate.ts";
import { type Range, runRange, STRETCH, type Tally } from "./runMutants.ts";
import { OTHERS, sourcesIn } from "./sources.ts";

const args = process.argv.slice(2);
const valueOf = (name: string): string | undefined => (args.includes(name) ? args[args.indexOf(name) + 1] : undefined);
const COUNT = Number(args.find((arg, at) => /^\d+$/.test(arg) && !args[at - 1]?.startsWith("--")) ?? 100_000);
const SEED = Number(valueOf("--seed") ?? 1);
const FOLDER = valueOf("--folder") ?? OTHERS;
const COMPARED = Math.min(COUNT, Number(valueOf("--compare") ?? 500));
for (const [name, number] of Object.entries({ COUNT, "--seed": SEED, "--compare": COMPARED })) {
  if (Number.isSafeInteger(number) && number >= 1) continue;
  console.error(`${name} must be a whole number from 1; write it as in 2000 --seed 7 --compare 500.`);
  process.exit(2);
}
/** Far behind UTC by an odd half hour, and as far ahead as clocks go. */
const HOST_ZONES = ["America/St_Johns", "Pacific/Auckland"];
const SILENT_MS = 15_000;
const THREAD_MEMORY_MB = 700;
const TOLD_EVERY = 10_000;
const SHOWN_CHARACTERS = 1_200;

interface Fault {
  readonly seed: number;
  readonly law: string;
}

const faults: Fault[] = [];
const tell = (fault: Fault): void => {
  faults.push(fault);
  console.log(`seed ${fault.seed}: ${fault.law.slice(0, SHOWN_CHARACTERS)}`);
};

const rangeFrom = (from: number, to: number): Range => ({
  from,
  to,
  folder: FOLDER,
  at: new BigInt64Array(new SharedArrayBuffer(8)),
});

/** Runs a range in a thread; the seed after the one it was stopped at, or `to` where it came to its end. */
const runWatched = async (from: number, to: number, take: (tally: Tally) => void): Promise<number> => {
  const range = rangeFrom(from, to);
  const worker = new Worker(join(import.meta.dirname, "runMutants.ts"), {
    workerData: range,
    resourceLimits: { maxOldGenerationSizeMb: THREAD_MEMORY_MB },
  });
  let stopped = "";
  let stood = { seed: -1n, since: performance.now() };
  const watch = setInterval(() => {
    const seed = Atomics.load(range.at, 0);
    if (seed !== stood.seed) stood = { seed, since: performance.now() };
    else if (performance.now() - stood.since > SILENT_MS) {
      stopped = `not done in ${SILENT_MS / 1000} s`;
      void worker.terminate();
    }
  }, 500);
  worker.on("message", take);
  worker.on("error", (error) => (stopped ||= `ended the thread: ${error.message}`));
  await once(worker, "exit");
  clearInterval(watch);
  if (stopped === "") return to;
  const seed = Number(Atomics.load(range.at, 0));
  tell({ seed, law: stopped });
  return seed + 1;
};

/** The digests of the first mutants in this process, a line each. */
const printDigests = (): void => {
  for (const { digest } of runRange(rangeFrom(SEED, SEED + COMPARED))) console.log(digest);
};

const compareHosts = (): void => {
  const digestsUnder = (TZ: string): string[] =>
    spawnSync(
      process.execPath,
      [
        import.meta.filename,
        String(COMPARED),
        "--seed",
        String(SEED),
        "--folder",
        FOLDER,
        "--compare",
        String(COMPARED),
        "--digests",
      ],
      { env: { ...process.env, TZ }, encoding: "utf8" },
    )
      .stdout.trim()
      .split("\n");
  const [plain = [], ...others] = ["UTC", ...HOST_ZONES].map(digestsUnder);
  if (plain.length !== Math.ceil(COMPARED / STRETCH))
    tell({ seed: SEED, law: "the reading to compare with came to no end" });
  for (const [index, digests] of others.entries()) {
    const at = plain.findIndex((digest, stretch) => digests[stretch] !== digest);
    if (at >= 0)
      tell({
        seed: SEED + at * STRETCH,
        law: `one of ${STRETCH} from here reads otherwise under TZ=${HOST_ZONES[index]}`,
      });
  }
};

const supervise = async (): Promise<void> => {
  const began = performance.now();
  const seconds = (): number => Math.max(1, Math.round((performance.now() - began) / 1000));
  const totals = { mutants: 0, refused: 0, vevents: 0, entries: 0 };
  const skipped = new Map<string, number>();
  let slowest: (readonly [number, number])[] = [];
  const take = (tally: Tally): void => {
    for (const name of ["mutants", "refused", "vevents", "entries"] as const) totals[name] += tally[name];
    for (const [reason, count] of tally.skipped) skipped.set(reason, (skipped.get(reason) ?? 0) + count);
    slowest = [...slowest, ...tally.slowest].sort(([one], [other]) => other - one).slice(0, 10);
    for (const fault of tally.faults) tell(fault);
    if (totals.mutants % TOLD_EVERY === 0)
      console.log(
        `${totals.mutants} mutants, ${seconds()} s, ${Math.round(totals.mutants / seconds())} a second, ${faults.length} faults`,
      );
  };
  for (let next = SEED; next < SEED + COUNT; ) next = await runWatched(next, SEED + COUNT, take);
  const rate = Math.round(totals.mutants / seconds());
  compareHosts();
  console.log(totals, `${seconds()} s, ${rate} a second; ${COMPARED} read under ${HOST_ZONES.length + 1} host zones`);
  const reasons = [...skipped].sort(([, one], [, other]) => other - one);
  console.log("skipped:", reasons.map(([reason, count]) => `${reason} ${count}`).join(", "));
  console.log("slowest:", slowest.map(([took, seed]) => `${Math.round(took)} ms (seed ${seed})`).join(", "));
  console.log(`made of ${sourcesIn(FOLDER).length} files, those in ${FOLDER} among them where it is there`);
  console.log(faults.length === 0 ? "no fault" : `${faults.length} FAULTS`);
  process.exitCode = faults.length > 0 ? 1 : 0;
};

if (args.includes("--show")) process.stdout.write(mutate(sourcesIn(FOLDER), new Dice(SEED)));
else if (args.includes("--digests")) printDigests();
else await supervise();
