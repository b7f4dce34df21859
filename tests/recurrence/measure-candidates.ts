/**
 * By hand: libical's cases put before every reader of rules that was looked at, each case in a process of its own with ten
 * seconds and 256 MB. `node tests/recurrence/measure-candidates.ts [reader …]`; `rrule` is no part of the project and is
 * looked for in the folder that CANDIDATES names; dateutil is Debian's python3-dateutil. Prints one row a reader.
 */
import { spawnSync } from "node:child_process";
import { createRequire } from "node:module";
import { expandRule } from "../../src/diary/expandRule.ts";
import { parseRule } from "../../src/diary/parseRule.ts";
import { DAY_SECONDS, type Wall } from "../../src/time/instant.ts";
import { LIBICAL_CASES, type WrittenCase } from "./libical-cases.ts";
import { readInstances, wallOf } from "./written-instances.ts";

/** More than expected is asked for, so that a rule which runs on is seen. */
const SPARE = 3;
const REACH = 100 * 366 * DAY_SECONDS;

const format = (wall: Wall): string => new Date(wall * 1000).toISOString().replace(/[-:]/g, "").slice(0, 15);
const written = ({ rule, start }: WrittenCase): string =>
  `DTSTART:${format(wallOf(start))}Z\nRRULE:${rule.replace(/;$/, "").replace(/UNTIL=(\d{8}(?:T\d{6})?)Z?/, (_, until: string) => `UNTIL=${until.includes("T") ? until : `${until}T000000`}Z`)}`;

const untilOf = (rule: string): Wall | null => {
  const until = /UNTIL=([^;]*)/.exec(rule)?.[1];
  return until === undefined ? null : wallOf(until) + (until.includes("T") ? 0 : DAY_SECONDS - 1);
};

/** What the libraries of the folder give; only this script knows them. */
interface Library {
  readonly rrulestr: (text: string) => { all: (go: (date: Date, index: number) => boolean) => Date[] };
}

const READERS: Readonly<Record<string, (each: WrittenCase, most: number) => Promise<Wall[]> | Wall[]>> = {
  first: ({ rule, start }, most) => {
    const read = parseRule(rule);
    if (typeof read === "string") throw new Error(read);
    const from = wallOf(start);
    const found = expandRule(read, from, untilOf(rule), from, from + REACH, 5_000);
    if (typeof found === "string") throw new Error(found);
    return found.slice(0, most);
  },
  "rrule-temporal": async (each, most) => {
    const { RRuleTemporal } = await import("rrule-temporal");
    const found = new RRuleTemporal({ rruleString: written(each) }).all((_, index) => index < most);
    return found.map(({ epochMilliseconds }) => epochMilliseconds / 1000);
  },
  "ical.js": async ({ rule, start }, most) => {
    const { default: ICAL } = await import("ical.js");
    const [date, time] = format(wallOf(start)).split("T") as [string, string];
    const day = date.replace(/(....)(..)(..)/, "$1-$2-$3");
    const begin = start.includes("T") ? `${day}T${time.replace(/(..)(..)(..)/, "$1:$2:$3")}` : day;
    const steps = ICAL.Recur.fromString(rule.replace(/;$/, "")).iterator(ICAL.Time.fromString(begin, null));
    const walls: Wall[] = [];
    for (let next = steps.next(); next && walls.length < most; next = steps.next())
      walls.push(wallOf(next.toString().replace(/[-:Z]/g, "")));
    return walls;
  },
  rrule: (each, most) => {
    const load = createRequire(`${process.env["CANDIDATES"]}/index.js`);
    const { rrulestr } = load("rrule") as Library;
    return rrulestr(written(each))
      .all((_, index) => index < most)
      .map((date) => date.getTime() / 1000);
  },
  dateutil: ({ rule, start }, most) => {
    const from = wallOf(start);
    const question = { rule: rule.replace(/(UNTIL=[\dT]+)Z/, "$1"), start: format(from), end: format(from + REACH) };
    const script = new URL("dateutil-reader.py", import.meta.url).pathname;
    const { stdout } = spawnSync("python3", [script], { input: `${JSON.stringify(question)}\n`, encoding: "utf8" });
    const { found, fault } = JSON.parse(stdout) as { found?: string[]; fault?: string };
    if (!found) throw new Error(fault);
    return found.map(wallOf).slice(0, most);
  },
};

const same = (one: readonly Wall[], other: readonly Wall[]): boolean =>
  one.length === other.length && one.every((wall, index) => wall === other[index]);

/** A start that the rule does not name may count as the first (RFC 5545 §3.3.10) or be left out: either is right. */
const judge = async (reader: string, each: WrittenCase): Promise<string> => {
  const listed = readInstances(each.start, each.instances);
  const count = /COUNT=(\d+)/.exec(each.rule)?.[1];
  const withStart = [wallOf(each.start), ...listed].slice(0, count === undefined ? undefined : Number(count));
  try {
    const found = await READERS[reader]?.(each, listed.length + SPARE);
    return found && (same(found, listed) || same(found, withStart)) ? "right" : "wrong";
  } catch {
    return "refused";
  }
};

const [asked, index] = process.argv.slice(2);
if (asked !== undefined && index !== undefined && /^\d+$/.test(index)) {
  console.log(await judge(asked, LIBICAL_CASES[Number(index)] as WrittenCase));
} else {
  const chosen = process.argv.length > 2 ? process.argv.slice(2) : Object.keys(READERS);
  for (const reader of chosen) {
    const tally: Record<string, number> = { right: 0, wrong: 0, refused: 0, hangs: 0, dies: 0 };
    const missed: number[] = [];
    for (const [place] of LIBICAL_CASES.entries()) {
      const script = [import.meta.filename, reader, String(place)];
      const run = spawnSync(process.execPath, ["--max-old-space-size=256", ...script], {
        encoding: "utf8",
        timeout: 10_000,
      });
      const verdict = run.stdout.trim() || (run.signal === "SIGTERM" ? "hangs" : "dies");
      tally[verdict] = (tally[verdict] ?? 0) + 1;
      if (verdict !== "right") missed.push(place);
    }
    console.log(reader, JSON.stringify(tally), `not right: ${missed.join(" ")}`);
  }
}
