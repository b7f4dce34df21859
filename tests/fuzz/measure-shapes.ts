/**
 * `npm run shapes -- [WORDS OF A NAME]`: what each hostile shape costs at one, two and four times its size: CPU, how much it
 * grows a doubling, and by how much the process's peak of memory grows. Each is read in a process of its own, and again
 * where it seems to more than double. Asserts nothing.
 */
import { spawnSync } from "node:child_process";
import { readShape } from "./readShape.ts";
import { SHAPES } from "./shapes.ts";

const PATIENCE_MS = 120_000;
const TRIES = 3;
/** More than this a doubling is looked at again. */
const DOUBLING = 2.4;
/** Milliseconds below which a ratio says nothing. */
const TELLING_MS = 20;

interface Cost {
  readonly cpuMs: number;
  readonly memoryMb: number;
  readonly entries: number;
  readonly megabytes: number;
}

const cpuMs = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1_000;
};
const peakMb = (): number => process.resourceUsage().maxRSS / 1_024;

/** In a process of its own: the shape is read once small, so that the code is warm, then as large as asked. */
const measureHere = (name: string, factor: number): Cost => {
  const shape = SHAPES.find((each) => each.name === name);
  if (!shape) throw new Error(`no shape is called ${name}`);
  for (let round = 0; round < 3; round++) readShape(shape.make(Math.ceil(shape.size / 20)));
  const octets = shape.make(shape.size * factor);
  const [memory, cpu] = [peakMb(), cpuMs()];
  const { entries } = readShape(octets);
  return { cpuMs: cpuMs() - cpu, memoryMb: peakMb() - memory, entries, megabytes: octets.length / 1e6 };
};

const measure = (name: string, factor: number): Cost | null => {
  const { stdout } = spawnSync(process.execPath, [import.meta.filename, "--one", name, String(factor)], {
    encoding: "utf8",
    timeout: PATIENCE_MS,
  });
  return stdout === "" ? null : (JSON.parse(stdout) as Cost);
};

const number = (value: number, digits: number, width: number): string => value.toFixed(digits).padStart(width);

const tell = (name: string, size: number): void => {
  let costs: (Cost | null)[] = [];
  for (let tried = 0; tried < TRIES; tried++) {
    const again = [1, 2, 4].map((factor) => measure(name, factor));
    costs = again.map((cost, at) => {
      const before = costs[at];
      return before && cost && before.cpuMs < cost.cpuMs ? before : cost;
    });
    if (ratiosOf(costs).every((ratio) => !(ratio > DOUBLING))) break;
  }
  const shown = costs.map((cost) => (cost ? number(cost.cpuMs, 0, 7) : "  ended")).join("");
  const ratios = ratiosOf(costs).map((ratio) => (Number.isNaN(ratio) ? "    –" : ` ×${ratio.toFixed(2)}`));
  const last = costs[2];
  const about = last
    ? `${number(last.megabytes, 1, 6)} MB  +${number(last.memoryMb, 0, 4)} MB ${String(last.entries).padStart(7)}`
    : "";
  console.log(`${name.padEnd(44)}${String(size * 4).padStart(9)} ${shown} ms ${ratios.join("")} ${about}`);
};

/** NaN where the smaller cost is too small to tell. */
const ratiosOf = (costs: readonly (Cost | null)[]): number[] =>
  [1, 2].map((at) => {
    const [before, after] = [costs[at - 1], costs[at]];
    if (!before || !after) return Number.POSITIVE_INFINITY;
    return before.cpuMs < TELLING_MS ? Number.NaN : after.cpuMs / before.cpuMs;
  });

const [first = "", ...rest] = process.argv.slice(2);
if (first === "--one") console.log(JSON.stringify(measureHere(rest[0] as string, Number(rest[1]))));
else {
  console.log(
    `${"shape".padEnd(44)}${"size ×4".padStart(9)}      ×1     ×2     ×4        growth      text    peak  entries`,
  );
  for (const { name, size } of SHAPES.filter((each) => each.name.includes([first, ...rest].join(" "))))
    tell(name, size);
}
