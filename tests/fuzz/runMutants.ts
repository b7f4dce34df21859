/** Makes and judges the mutants of a range of seeds, in a thread of its own, and says where it stands: an endless loop shows. */
import { createHash } from "node:crypto";
import { parentPort, workerData } from "node:worker_threads";
import { Dice } from "./Dice.ts";
import { judge } from "./judge.ts";
import { changeOnce, mutate } from "./mutate.ts";
import { judgeBy, sourcesIn } from "./sources.ts";

/** One range of seeds, the end not in it. */
export interface Range {
  readonly from: number;
  readonly to: number;
  readonly folder: string;
  /** Holds the seed that is worked on. */
  readonly at: BigInt64Array<SharedArrayBuffer>;
}

/** What the mutants of a stretch of seeds gave. */
export interface Tally {
  readonly mutants: number;
  readonly refused: number;
  readonly vevents: number;
  readonly entries: number;
  readonly skipped: ReadonlyMap<string, number>;
  /** Milliseconds of CPU and the seed that took them. */
  readonly slowest: readonly (readonly [number, number])[];
  readonly faults: readonly { readonly seed: number; readonly law: string }[];
  /** Changes where one reading of the stretch does. */
  readonly digest: string;
}

/** Seeds of one tally. */
export const STRETCH = 100;
/** Milliseconds of CPU from which on a mutant is a fault. */
const SLOW_MS = 1_000;
const SLOWEST_KEPT = 10;

const cpuMs = (): number => {
  const { user, system } = process.threadCpuUsage();
  return (user + system) / 1_000;
};

/** @param begin is told each seed before its mutant is made */
export const runStretch = (
  sources: readonly Buffer[],
  from: number,
  to: number,
  begin: (seed: number) => void,
): Tally => {
  const digest = createHash("sha256");
  const skipped = new Map<string, number>();
  const times: [number, number][] = [];
  const faults: { seed: number; law: string }[] = [];
  let [refused, vevents, entries] = [0, 0, 0];
  for (let seed = from; seed < to; seed++) {
    begin(seed);
    const dice = new Dice(seed);
    const octets = mutate(sources, dice);
    const before = cpuMs();
    try {
      const judged = judge(octets, dice, judgeBy, () => changeOnce(octets, sources, dice));
      if (judged.broken !== null) faults.push({ seed, law: judged.broken });
      if (judged.refused) refused++;
      vevents += judged.vevents;
      entries += judged.entries;
      for (const reason of judged.skipped) skipped.set(reason, (skipped.get(reason) ?? 0) + 1);
      digest.update(judged.reading);
    } catch (error) {
      faults.push({ seed, law: `threw ${error instanceof Error ? (error.stack ?? error.message) : String(error)}` });
    }
    const took = cpuMs() - before;
    if (took > SLOW_MS) faults.push({ seed, law: `took ${Math.round(took)} ms of CPU` });
    times.push([took, seed]);
  }
  const slowest = times.sort(([one], [other]) => other - one).slice(0, SLOWEST_KEPT);
  return { mutants: to - from, refused, vevents, entries, skipped, slowest, faults, digest: digest.digest("hex") };
};

/** Tallies of stretch after stretch. */
export function* runRange({ from, to, folder, at }: Range): Generator<Tally> {
  const sources = sourcesIn(folder);
  for (let next = from; next < to; next += STRETCH) {
    yield runStretch(sources, next, Math.min(to, next + STRETCH), (seed) => Atomics.store(at, 0, BigInt(seed)));
  }
}

if (parentPort && (workerData as Range | null)?.at) {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread's port, not a window
  for (const tally of runRange(workerData as Range)) parentPort.postMessage(tally);
}
