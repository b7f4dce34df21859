/** CPU time of alternating pieces of work in one process, and what is said of many rounds. Asserts nothing. */
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";

setFlagsFromString("--expose-gc");
const collect = runInNewContext("gc") as (options: { readonly type: "minor" }) => void;

/** CPU of this process, all its threads (so the collector's too), in microseconds. */
const cpuMicroseconds = (): number => {
  const { user, system } = process.cpuUsage();
  return user + system;
};

/** CPU of one run of some work, in microseconds; the young garbage of what ran before is swept first, so that none pays for another. */
export const cpuOf = (work: () => void): number => {
  collect({ type: "minor" });
  const before = cpuMicroseconds();
  work();
  return cpuMicroseconds() - before;
};

/**
 * Microseconds of CPU of each work in each round. The works take turns, a different one first in each round, so that a
 * busy machine burdens all alike; `warmUp` rounds are thrown away.
 */
export const takeTurns = <Name extends string>(
  works: Readonly<Record<Name, () => void>>,
  rounds: number,
  warmUp: number,
): Readonly<Record<Name, number[]>> => {
  const names = Object.keys(works) as Name[];
  const taken = Object.fromEntries(names.map((name) => [name, [] as number[]])) as Record<Name, number[]>;
  for (let round = -warmUp; round < rounds; round++) {
    for (let turn = 0; turn < names.length; turn++) {
      const name = names[(turn + Math.abs(round)) % names.length] as Name;
      const cost = cpuOf(works[name]);
      if (round >= 0) taken[name].push(cost);
    }
  }
  return taken;
};

export interface Spread {
  readonly median: number;
  readonly low: number;
  readonly high: number;
}

/** Median and the tenth and ninetieth hundredth. */
export const spreadOf = (values: readonly number[]): Spread => {
  const sorted = [...values].sort((one, other) => one - other);
  const at = (share: number): number => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? NaN;
  return { median: at(0.5), low: at(0.1), high: at(0.9) };
};

export const spreadText = ({ median, low, high }: Spread, digits: number): string =>
  `${median.toFixed(digits)} (${low.toFixed(digits)} to ${high.toFixed(digits)})`;
