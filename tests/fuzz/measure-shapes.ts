/** `npm run shapes`: milliseconds of CPU for each hostile shape at one, two and four times its size, and the ratios. Asserts nothing. */
import { cpuOf } from "../bench/measure.ts";
import { readShape } from "./readShape.ts";
import { SHAPES } from "./shapes.ts";

const ROUNDS = 3;
const best = (octets: Uint8Array): number =>
  Math.min(...Array.from({ length: ROUNDS }, () => cpuOf(() => void readShape(octets)))) / 1000;

for (const { name, size, make } of SHAPES) {
  const [once = 0, twice = 0, fourTimes = 0] = [1, 2, 4].map((factor) => best(make(size * factor)));
  const ratios = `×${(twice / once).toFixed(2)} ×${(fourTimes / twice).toFixed(2)}`;
  const costs = [once, twice, fourTimes].map((cost) => cost.toFixed(1).padStart(8)).join(" ");
  console.log(`${name.padEnd(42)} ${String(size).padStart(8)}  ${costs} ms   ${ratios}`);
}
