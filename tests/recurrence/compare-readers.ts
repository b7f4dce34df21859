/**
 * By hand: random rules read by the first reader, the second one and python-dateutil (Debian: python3-dateutil), counted by
 * class. `node tests/recurrence/compare-readers.ts [rules] [seed] [show]`; with a class as third word its differences are
 * printed. Asserts nothing; DEVELOPERS.md says what was measured.
 */
import { spawn } from "node:child_process";
import { createInterface } from "node:readline";
import { expandAgain } from "../../src/diary/expandAgain.ts";
import { expandRule } from "../../src/diary/expandRule.ts";
import { parseRule, type Rule } from "../../src/diary/parseRule.ts";
import { DAY_SECONDS, type Wall } from "../../src/time/instant.ts";
import { randomRule } from "./random-rule.ts";

const [rules = "2000", seed = "1", shown = ""] = process.argv.slice(2);

const formatWall = (wall: Wall): string => new Date(wall * 1000).toISOString().replace(/[-:]/g, "").slice(0, 15);

/** The parts of a rule that readers are known to quarrel about. */
const classOf = (rule: Rule): string =>
  [
    rule.freq,
    ...[...rule.by.keys()].filter((part) => !["BYHOUR", "BYMINUTE", "BYSECOND"].includes(part)).sort(),
    rule.byDay.length > 0 ? (rule.byDay.some(({ ordinal }) => ordinal !== 0) ? "nBYDAY" : "BYDAY") : "",
  ]
    .filter((word) => word !== "")
    .join(" ");

interface Tally {
  rules: number;
  dateutilDiffers: number;
  dateutilGivesUp: number;
  secondDiffers: number;
  secondGivesUp: number;
  secondMs: number;
  slowestMs: number;
}

const python = spawn("python3", [new URL("dateutil-reader.py", import.meta.url).pathname]);
const answers = createInterface({ input: python.stdout })[Symbol.asyncIterator]();
const tallies = new Map<string, Tally>();
let firstMs = 0;
let firstSlowest = 0;
for (let index = 0; index < Number(rules); index++) {
  const { text, start, days } = randomRule(Number(seed) * 1_000_000 + index);
  const rule = parseRule(text);
  if (typeof rule === "string") throw new Error(`${text}: ${rule}`);
  const end = start + days * DAY_SECONDS;
  const began = performance.now();
  const first = expandRule(rule, start, null, start, end, 100_000);
  const middle = performance.now();
  const second = expandAgain(rule, start, null, start, end);
  const after = performance.now();
  firstMs += middle - began;
  firstSlowest = Math.max(firstSlowest, middle - began);
  // dateutil names every day of a week where the rule leaves the day out; RFC 5545 takes it from the start.
  const hasDay = rule.byDay.length > 0 || rule.by.has("BYMONTHDAY") || rule.by.has("BYYEARDAY");
  const weekday = ["SU", "MO", "TU", "WE", "TH", "FR", "SA"][new Date(start * 1000).getUTCDay()];
  const asked = rule.by.has("BYWEEKNO") && !hasDay ? `${text};BYDAY=${weekday}` : text;
  python.stdin.write(`${JSON.stringify({ rule: asked, start: formatWall(start), end: formatWall(end) })}\n`);
  const { found } = JSON.parse((await answers.next()).value as string) as { found?: string[] };
  // The start counts as the first occurrence, whether the rule names it or not.
  const written = formatWall(start);
  const expected = found && (found[0] === written ? found : [written, ...found].slice(0, rule.count ?? undefined));
  const name = classOf(rule);
  const tally = tallies.get(name) ?? {
    rules: 0,
    dateutilDiffers: 0,
    dateutilGivesUp: 0,
    secondDiffers: 0,
    secondGivesUp: 0,
    secondMs: 0,
    slowestMs: 0,
  };
  tallies.set(name, tally);
  tally.rules++;
  tally.secondMs += after - middle;
  tally.slowestMs = Math.max(tally.slowestMs, after - middle);
  const own = typeof first === "string" ? first : first.map(formatWall).join(" ");
  const dateutil = expected?.join(" ");
  if (dateutil === undefined) tally.dateutilGivesUp++;
  else if (own !== dateutil) tally.dateutilDiffers++;
  if (!second) tally.secondGivesUp++;
  else if (second.map(formatWall).join(" ") !== own) tally.secondDiffers++;
  if (
    name === shown &&
    ((dateutil !== undefined && own !== dateutil) || (second && second.map(formatWall).join(" ") !== own))
  )
    console.log(
      [
        text,
        written,
        `first    ${own.slice(0, 200)}`,
        `second   ${second?.map(formatWall).join(" ").slice(0, 200)}`,
        `dateutil ${dateutil?.slice(0, 200)}`,
      ].join("\n  "),
    );
}
python.stdin.end();
console.log(`first reader: ${firstMs.toFixed(0)} ms, slowest ${firstSlowest.toFixed(1)} ms`);
console.table(
  Object.fromEntries(
    [...tallies]
      .toSorted(([one], [other]) => (one < other ? -1 : 1))
      .map(([name, tally]) => [
        name,
        { ...tally, secondMs: +(tally.secondMs / tally.rules).toFixed(1), slowestMs: +tally.slowestMs.toFixed(0) },
      ]),
  ),
);
