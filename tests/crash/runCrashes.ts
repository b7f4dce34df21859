/** The run: load, kill, restart, judge, so many times. Ends at the first judgement that finds a fault. */
import { Dice } from "../fuzz/Dice.ts";
import { judge } from "./judge.ts";
import { Load } from "./load.ts";
import { Service } from "./Service.ts";
import { Tally } from "./Tally.ts";
import { WatchedSalon } from "./WatchedSalon.ts";

export interface Run {
  readonly tally: Tally;
  /** Milliseconds from each start to its first answer. */
  readonly starts: readonly number[];
}

/** The longest a load goes on before its kill. */
const LOAD_MS = 1_500;
/** A kill that comes while the service starts comes within this. */
const START_MS = 1_000;
/** Every other kill comes at the very moment something is acknowledged, where that is within this. */
const ACKNOWLEDGED_MS = 1_000;
/** One kill of so many is followed by another while the service starts. */
const KILLED_AGAIN = 4;
/** Kills that one salon lives through before another takes its place; it is judged once more at the end. */
const KILLS_A_SALON = 20;
const TOLD_EVERY = 10;

const pause = (milliseconds: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, milliseconds));

/** @param say takes a line every ten kills */
export const runCrashes = async (kills: number, seed: number, say: (line: string) => void): Promise<Run> => {
  const dice = new Dice(seed);
  const tally = new Tally();
  const starts: number[] = [];
  const salons: WatchedSalon[] = [];
  const service = await Service.prepare();
  const { caller } = service;
  const { counts } = tally;
  /** Loads a salon for a while and kills under the load. */
  const crash = async (salon: WatchedSalon, within: number): Promise<void> => {
    const load = new Load(salon, caller, dice, tally);
    await pause(dice.below(within));
    if (dice.below(2) === 0) await Promise.race([load.nextAcknowledged(), pause(ACKNOWLEDGED_MS)]);
    load.stop();
    await service.kill();
    await load.ended();
    tally.add("kills");
    if (counts.kills % TOLD_EVERY === 0) say(progress(tally));
  };
  try {
    starts.push(await service.start());
    while (counts.kills < kills && tally.faults.length === 0) {
      if (counts.kills >= salons.length * KILLS_A_SALON) salons.push(await WatchedSalon.open(caller, dice, tally));
      const salon = salons.at(-1) as WatchedSalon;
      await crash(salon, LOAD_MS);
      if (counts.kills < kills && dice.below(KILLED_AGAIN) === 0) {
        service.spawn();
        tally.add("killsInStart");
        await crash(salon, START_MS);
      }
      starts.push(await service.start());
      await judge(salon, caller, tally);
    }
    for (const salon of salons) await judge(salon, caller, tally);
    if (service.printed.includes("rror")) tally.fault(`the service wrote: ${service.printed.slice(0, 1_000)}`);
  } finally {
    await service.end();
  }
  return { tally, starts };
};

const progress = ({ counts, faults }: Tally): string =>
  `${counts.kills} kills: ${counts.records} records and ${counts.screenings} sets of answers acknowledged, ` +
  `${counts.pushes} pushes, ${counts.feeds} feeds, ${faults.length} faults`;
