/**
 * Judges the diary reader by calendar files that nobody here wrote: `npm run corpus -- FOLDER [--first N] [--all]`. It reads
 * them as `npm run read` does, and compares each start with what two independent readers agreed on. The files are not ours
 * to ship, so none is in the project. Exit status 1: something was read wrongly, or is not accounted for.
 *
 * FOLDER holds `files/` and `expected.tsv` with the columns file, uid, recurrence_id, dtstart_line, expected_start,
 * node_ical_start, verdict. Starts: ISO (an instant), `F:` (floating; read here in UTC), `D:` (a date), `U:` (a zone that
 * nobody could resolve), `NONE` (no start), `ERR:` and empty (the second reader refused; the first one's start is then
 * looked at).
 */
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { createReadStream, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { ListedEvent } from "../src/diary/listEvents.ts";
import { listBlock, readCalendar } from "../src/local/readCalendar.ts";
import { formatDay, formatInstant, parseWall } from "../src/time/instant.ts";
import { Zone } from "../src/time/zone.ts";

type Verdict = "right" | "not certain" | "skipped with its reason" | "in a refused file" | "wrong" | "lost";
interface Row {
  readonly uid: string;
  readonly line: string;
  readonly expected: string;
  readonly verdict: string;
}

const args = process.argv.slice(2);
const [folder] = args;
if (folder === undefined) throw new Error("give the folder that holds files/ and expected.tsv");
const showsAll = args.includes("--all");
const isDigest = args.includes("--digest");
const first = args.includes("--first") ? Number(args[args.indexOf("--first") + 1]) : Number.POSITIVE_INFINITY;
const zone = Zone.named("UTC") as Zone;

/** Windows names of zones, which the second reader did not know (CLDR windowsZones, territory 001). */
const WINDOWS = new Map([
  ["(UTC-05:00) Eastern Time (US and Canada)", "America/New_York"],
  ["Pacific Standard Time", "America/Los_Angeles"],
]);

/** What clocks of a zone show at an instant, by ICU: neither our tables nor the second reader's. */
const wallByIcu = (milliseconds: number, timeZone: string): number => {
  const options = {
    year: "numeric",
    month: "numeric",
    day: "numeric",
    hour: "numeric",
    minute: "numeric",
    second: "numeric",
  } as const;
  const parts = new Intl.DateTimeFormat("en-US", { timeZone, hourCycle: "h23", ...options }).formatToParts(
    milliseconds,
  );
  const of = (type: string): number => Number(parts.find((part) => part.type === type)?.value);
  return Date.UTC(of("year"), of("month") - 1, of("day"), of("hour"), of("minute"), of("second"));
};

/** The instant of a DTSTART line in the IANA zone it names, by ICU; undefined where it names none. */
const byIana = (line: string): string | undefined => {
  const parts = /TZID="?([^":]+(?::[^":]+)?[^":]*)"?:(\d{8}T\d{6})$/.exec(line);
  const wall = parts?.[2] && parseWall(parts[2].replace(/(....)(..)(..)T(..)(..)(..)/, "$1-$2-$3T$4:$5:$6"));
  const name = parts?.[1] as string;
  // A slash before the name says that it is registered globally (RFC 5545 §3.2.19).
  const timeZone = parts && (WINDOWS.get(name) ?? name.replace(/^\//, ""));
  if (wall === undefined || !timeZone || wall === "") return undefined;
  try {
    let at = wall * 1000;
    for (let round = 0; round < 3; round++) at += wall * 1000 - wallByIcu(at, timeZone);
    return `${new Date(at).toISOString().slice(0, 19)}Z`;
  } catch {
    return undefined;
  }
};

/**
 * Starts that the table gives and the text does not bear out, with the start that it does. Each can be looked up in its file.
 */
const CORRECTED = new Map([
  // "Europe_Berlin" is defined in the file: +0200 from 30 March to 26 October 2014. Both readers took it for UTC.
  ["DTSTART;TZID=Europe_Berlin:20140409T093000", "2014-04-09T07:30:00Z"],
  // The text says DTSTART:19971102, without VALUE=DATE; the second reader rewrote the line before it refused it.
  ["DTSTART:1997-11-02T::", "D:1997-11-02"],
]);

const rowsByFile = Map.groupBy(
  readFileSync(join(folder, "expected.tsv"), "utf8")
    .split("\n")
    .slice(1)
    .filter((line) => line !== "")
    .map((line) => line.split("\t")),
  ([file = ""]) => file,
);

const expectedOf = (line: string, agreed: string, theirs: string, verdict: string): string => {
  const corrected = CORRECTED.get(line);
  if (corrected !== undefined) return corrected;
  const isKnownByUs = verdict === "VTIMEZONE_DIFFERS_FROM_IANA" || agreed.startsWith("U:");
  const iana = isKnownByUs ? byIana(line) : undefined;
  if (iana !== undefined) return iana;
  const start = agreed === "" || agreed.startsWith("ERR:") ? theirs : agreed;
  return start.startsWith("F:") ? `${start.slice(2)}Z` : start.replace(/\.000Z$/, "Z");
};

/** Rows without a start line are of one reader that saw more than the text holds, or another start than it says. */
const isOfText = ([, , , line = "", agreed = ""]: string[]): boolean => line !== "" || agreed !== "";

const rowsOf = (file: string): Row[] =>
  (rowsByFile.get(file) ?? [])
    .filter(isOfText)
    .map(([, uid = "", , line = "", agreed = "", theirs = "", verdict = ""]) => ({
      uid: uid.trim(),
      line,
      expected: expectedOf(line, agreed.trim(), theirs.trim(), verdict.trim()),
      verdict: verdict.trim(),
    }));

interface Heard {
  readonly event: ListedEvent;
  readonly isAside: boolean;
}
const inWords = ({ event }: Heard): string => {
  if (event.date !== null) return `D:${formatDay(event.date)}`;
  if (event.reason?.code === "time-missing") return "NONE";
  return event.start === null ? `? ${event.reason?.code}` : formatInstant(event.start);
};

const isOf = ({ uid }: Row, { event }: Heard): boolean =>
  event.uid.trim() === uid ||
  (uid !== "" && event.uid.startsWith(uid)) ||
  (uid === "" && event.uid.startsWith("content-"));

const takeFrom = (heard: Heard[], fits: (each: Heard) => boolean): Heard | undefined => {
  const at = heard.findIndex(fits);
  return at < 0 ? undefined : heard.splice(at, 1)[0];
};

const verdictOf = (found: Heard | undefined, isSame: boolean, isRefused: boolean): Verdict => {
  if (isSame && !isRefused) return "right";
  if (isRefused) return "in a refused file";
  if (!found) return "lost";
  if (found.isAside) return "skipped with its reason";
  return found.event.certain ? "wrong" : "not certain";
};

const digest = createHash("sha256");
const counts = new Map<Verdict, number>();
const totals = { files: 0, refused: 0, raw: 0, entries: 0, aside: 0, unaccounted: 0, ofOneReaderOnly: 0 };
const began = performance.now();
for (const file of readdirSync(join(folder, "files")).sort().slice(0, first)) {
  totals.files++;
  const { refused, seen } = await readCalendar(createReadStream(join(folder, "files", file)));
  const heard: Heard[] = [];
  for (const block of seen?.blocks ?? []) {
    const { events, aside } = listBlock(block, zone, null);
    heard.push(
      ...events.map((event) => ({ event, isAside: false })),
      ...aside.map((event) => ({ event, isAside: true })),
    );
  }
  digest.update(JSON.stringify([file, refused, heard]));
  const raw = seen?.raw ?? 0;
  totals.raw += raw;
  totals.entries += heard.filter(({ isAside }) => !isAside).length;
  totals.aside += heard.filter(({ isAside }) => isAside).length;
  if (refused) totals.refused++;
  if (refused && showsAll) console.log("refused", file, refused.code, `${raw} entries seen`);
  if (raw !== heard.length) {
    totals.unaccounted += Math.abs(raw - heard.length);
    console.log("unaccounted", file, raw, heard.length);
  }
  const rows = rowsOf(file);
  totals.ofOneReaderOnly += (rowsByFile.get(file) ?? []).length - rows.length;
  const judged = rows.map((row) => ({
    row,
    found: takeFrom(heard, (each) => isOf(row, each) && inWords(each) === row.expected),
  }));
  for (const { row, found: same } of judged) {
    const found = same ?? takeFrom(heard, (each) => isOf(row, each));
    const verdict = verdictOf(found, same !== undefined, refused !== null);
    counts.set(verdict, (counts.get(verdict) ?? 0) + 1);
    const isWorth = verdict === "wrong" || verdict === "lost" || (showsAll && verdict !== "right");
    if (isWorth && !isDigest) {
      console.log(`${verdict}: ${file} ${row.uid.slice(0, 30)} ${row.line}`);
      console.log(
        `  expected ${row.expected || "nothing"}, read ${found ? inWords(found) : "nothing"} (${row.verdict})`,
      );
    }
  }
}
const print = digest.digest("hex");
if (isDigest) process.stdout.write(print);
else {
  const elsewhere = spawnSync(process.execPath, [import.meta.filename, folder, "--first", String(first), "--digest"], {
    env: { ...process.env, TZ: "Pacific/Auckland" },
    encoding: "utf8",
  }).stdout;
  console.log(totals, `${Math.round(performance.now() - began)} ms`);
  for (const [verdict, count] of counts) console.log(`${String(count).padStart(6)} ${verdict}`);
  const isSame = elsewhere.endsWith(print);
  console.log(isSame ? "the same under TZ=Pacific/Auckland" : "DIFFERENT under TZ=Pacific/Auckland");
  const bad = (counts.get("wrong") ?? 0) + (counts.get("lost") ?? 0) + totals.unaccounted;
  process.exitCode = bad > 0 || !isSame ? 1 : 0;
}
