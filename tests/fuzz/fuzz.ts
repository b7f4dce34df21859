/**
 * `npm run fuzz -- [COUNT] [--seed N] [--folder FOLDER]`: mutants through the diary reader, one a seed, from N on. A child
 * does the work and says where it stands; one that is silent for ten seconds is ended, and its seed is a fault. The first
 * five hundred are read again under another host zone. Exit status 1: a law was broken; the seed makes the mutant again.
 */
import { spawn, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { Dice } from "./Dice.ts";
import { judge } from "./judge.ts";
import { mutate } from "./mutate.ts";
import { judgeBy, OTHERS, sourcesIn } from "./sources.ts";

const args = process.argv.slice(2);
const valueOf = (name: string): string | undefined => (args.includes(name) ? args[args.indexOf(name) + 1] : undefined);
const COUNT = Number(args.find((arg, at) => /^\d+$/.test(arg) && !args[at - 1]?.startsWith("--")) ?? 100_000);
const SEED = Number(valueOf("--seed") ?? 1);
const FOLDER = valueOf("--folder") ?? OTHERS;
const SILENT_MS = 10_000;
const SLOW_MS = 1_000;
const COMPARED = 500;

interface Progress {
  readonly seed: number;
  readonly fault?: string;
  readonly slow?: number;
}

const work = (from: number, count: number): void => {
  const sources = sourcesIn(FOLDER);
  const digest = createHash("sha256");
  const totals = { mutants: 0, refused: 0, vevents: 0, entries: 0 };
  const reasons = new Map<string, number>();
  const slowest: [number, number][] = [];
  const say = (progress: Progress): void => void process.send?.(progress);
  for (let seed = from; seed < from + count; seed++) {
    if (seed % 20 === 0) say({ seed });
    const dice = new Dice(seed);
    const octets = mutate(sources, dice);
    const began = performance.now();
    try {
      const judged = judge(octets, dice, judgeBy);
      if (judged.broken !== null) say({ seed, fault: judged.broken });
      if (judged.refused) totals.refused++;
      totals.vevents += judged.vevents;
      totals.entries += judged.entries;
      for (const reason of judged.skipped) reasons.set(reason, (reasons.get(reason) ?? 0) + 1);
      if (seed < SEED + COMPARED) digest.update(judged.reading);
    } catch (error) {
      say({
        seed,
        fault: `threw ${error instanceof Error ? (error.stack ?? error.message).slice(0, 600) : String(error)}`,
      });
    }
    totals.mutants++;
    const took = performance.now() - began;
    if (took > SLOW_MS) say({ seed, slow: took });
    slowest.push([took, seed]);
    if (slowest.length > 200)
      slowest.splice(0, Infinity, ...slowest.sort(([one], [other]) => other - one).slice(0, 10));
  }
  slowest.sort(([one], [other]) => other - one);
  process.send?.({ seed: from + count, done: { totals, reasons: [...reasons], slowest: slowest.slice(0, 10) } });
  if (args.includes("--digest")) process.stdout.write(digest.digest("hex"));
};

const supervise = async (): Promise<void> => {
  const faults: Progress[] = [];
  const began = performance.now();
  const totals: Record<string, number> = {};
  const reasons = new Map<string, number>();
  let slowest: [number, number][] = [];
  let next = SEED;
  while (next < SEED + COUNT) {
    let at = next;
    let isDone = false;
    const child = spawn(
      process.execPath,
      [import.meta.filename, String(SEED + COUNT - next), "--seed", String(next), "--folder", FOLDER, "--work"],
      {
        stdio: ["ignore", "inherit", "inherit", "ipc"],
      },
    );
    const watch = (): NodeJS.Timeout => setTimeout(() => child.kill("SIGKILL"), SILENT_MS);
    let timer = watch();
    child.on(
      "message",
      (
        message: Progress & {
          done?: { totals: Record<string, number>; reasons: [string, number][]; slowest: [number, number][] };
        },
      ) => {
        clearTimeout(timer);
        timer = watch();
        at = message.seed;
        if (message.fault !== undefined) {
          faults.push(message);
          console.log(`seed ${message.seed}: ${message.fault}`);
        }
        if (message.slow !== undefined) {
          faults.push(message);
          console.log(`seed ${message.seed} took ${Math.round(message.slow)} ms`);
        }
        if (at % 20_000 === 0)
          console.log(
            `${at - SEED} mutants, ${Math.round((performance.now() - began) / 1000)} s, ${faults.length} faults`,
          );
        if (!message.done) return;
        isDone = true;
        for (const [name, count] of Object.entries(message.done.totals)) totals[name] = (totals[name] ?? 0) + count;
        for (const [reason, count] of message.done.reasons) reasons.set(reason, (reasons.get(reason) ?? 0) + count);
        slowest = [...slowest, ...message.done.slowest].sort(([one], [other]) => other - one).slice(0, 10);
      },
    );
    await new Promise((resolve) => child.once("exit", resolve));
    clearTimeout(timer);
    if (isDone) break;
    faults.push({ seed: at, fault: "never ended" });
    console.log(`seed ${at} to ${at + 19}: silent for ${SILENT_MS / 1000} s, or the process died`);
    next = at + 20;
  }
  const compared = Math.min(COUNT, COMPARED);
  const [here, elsewhere] = ["UTC", "Pacific/Auckland"].map(
    (TZ) =>
      spawnSync(
        process.execPath,
        [import.meta.filename, String(compared), "--seed", String(SEED), "--folder", FOLDER, "--work", "--digest"],
        {
          env: { ...process.env, TZ },
          encoding: "utf8",
        },
      ).stdout,
  );
  if (here === "" || here !== elsewhere) {
    faults.push({ seed: SEED, fault: "another host zone gives another reading" });
    console.log(`seeds ${SEED} to ${SEED + compared - 1} read otherwise under TZ=Pacific/Auckland`);
  }
  console.log(totals, `${Math.round((performance.now() - began) / 1000)} s`);
  console.log(
    "skipped:",
    [...reasons]
      .sort(([, one], [, other]) => other - one)
      .map(([reason, count]) => `${reason} ${count}`)
      .join(", "),
  );
  console.log("slowest:", slowest.map(([took, seed]) => `${Math.round(took)} ms (seed ${seed})`).join(", "));
  console.log(faults.length === 0 ? "no fault" : `${faults.length} FAULTS`);
  process.exitCode = faults.length > 0 ? 1 : 0;
};

if (args.includes("--work")) work(SEED, COUNT);
else await supervise();
