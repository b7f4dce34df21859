/**
 * Runs the diary reader over a folder of calendar files that nobody here wrote, and compares every start with what two
 * independent readers agreed on. By hand: `node tests/diary-corpus.ts FOLDER [--all]`. Never part of the unit tests: the
 * files are not ours to ship.
 *
 * FOLDER holds `files/` and `expected.tsv` with the columns file, uid, recurrence_id, dtstart_line, expected_start,
 * node_ical_start, verdict. Starts: ISO (an instant), `F:` (floating; read here in UTC), `D:` (a date), `U:` (a zone nobody
 * can resolve), `NONE` (no start), `ERR:` and empty (the second reader refused; the first one's start is taken).
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { indexDiary } from "../src/diary/indexDiary.ts";
import { type ListedEvent, listEvents } from "../src/diary/listEvents.ts";
import { readBlock } from "../src/diary/readBlock.ts";
import { formatDay, formatInstant } from "../src/time/instant.ts";
import { Zone } from "../src/time/zone.ts";

type Verdict = "agree" | "differ" | "not certain" | "skipped" | "file refused" | "not found";
interface Row {
  readonly file: string;
  readonly uid: string;
  readonly line: string;
  readonly expected: string;
  readonly theirs: string;
}
interface Heard {
  readonly event: ListedEvent;
  readonly isAside: boolean;
}

const [folder, ...flags] = process.argv.slice(2);
if (folder === undefined) throw new Error("give the folder that holds files/ and expected.tsv");
const showsAll = flags.includes("--all");
const zone = Zone.named("UTC") as Zone;
const yearIn = (year: number): number => Date.UTC(year, 0, 1) / 1000;
const horizon = { from: yearIn(1980), to: yearIn(2035) };

const rows: Row[] = readFileSync(join(folder, "expected.tsv"), "utf8")
  .split("\n")
  .slice(1)
  .filter((line) => line !== "")
  .map((line) => line.split("\t"))
  .map(([file = "", uid = "", , written = "", agreed = "", first = "", theirs = ""]) => ({
    file,
    uid,
    line: written,
    expected: agreed === "" || agreed.startsWith("ERR:") ? first.trim() : agreed.trim(),
    theirs: theirs.trim(),
  }));

const inWords = ({ event }: Heard): string => {
  if (event.date !== null) return `D:${formatDay(event.date)}`;
  if (event.reason?.code === "time-missing") return "NONE";
  return event.start === null ? `? ${event.reason?.code}` : formatInstant(event.start);
};
const expectedInWords = (expected: string): string =>
  expected.startsWith("F:") ? `${expected.slice(2)}Z` : expected.replace(/\.000Z$/, "Z");

const counts = new Map<string, number>();
const count = (verdict: Verdict, theirs: string): void => {
  const name = `${verdict}\t${theirs.split(" ")[0]}`;
  counts.set(name, (counts.get(name) ?? 0) + 1);
};

const totals = { files: 0, refused: 0, raw: 0, listed: 0, aside: 0, entries: 0, skipped: 0, unaccounted: 0 };
const began = performance.now();
for (const file of readdirSync(join(folder, "files")).toSorted()) {
  totals.files++;
  const indexed = indexDiary(readFileSync(join(folder, "files", file)));
  const expectedHere = rows.filter((row) => row.file === file);
  if ("refusal" in indexed) {
    totals.refused++;
    if (expectedHere.length > 0) console.log("file refused", file, JSON.stringify(indexed.refusal));
    for (const row of expectedHere) count("file refused", row.theirs);
    continue;
  }
  const heard: Heard[] = [];
  for (const block of indexed.blocks) {
    const { events, aside } = listEvents(block, zone);
    heard.push(...events.map((event) => ({ event, isAside: false })));
    heard.push(...aside.map((event) => ({ event, isAside: true })));
    const started = performance.now();
    const reading = readBlock(block, zone, horizon);
    const took = performance.now() - started;
    if (took > 500) console.log("slow", file, block.uid.slice(0, 40), `${Math.round(took)} ms`);
    totals.entries += reading.entries.length;
    totals.skipped += reading.skipped.length;
    if (showsAll) for (const { reason, start } of reading.skipped) console.log("skipped", file, reason, start);
  }
  totals.raw += indexed.raw;
  totals.listed += heard.filter((each) => !each.isAside).length;
  totals.aside += heard.filter((each) => each.isAside).length;
  totals.unaccounted += indexed.raw - heard.length;
  if (indexed.raw !== heard.length) console.log("unaccounted", file, indexed.raw, heard.length);

  for (const row of expectedHere) {
    const expected = expectedInWords(row.expected);
    const isOfUid = ({ event }: Heard): boolean =>
      event.uid === row.uid || (row.uid === "" && event.uid.startsWith("content-"));
    const same = heard.findIndex((each) => isOfUid(each) && inWords(each) === expected);
    const any = same >= 0 ? same : heard.findIndex(isOfUid);
    const [found] = any < 0 ? [] : heard.splice(any, 1);
    const verdict: Verdict = !found
      ? "not found"
      : same >= 0
        ? "agree"
        : found.isAside
          ? "skipped"
          : found.event.certain
            ? "differ"
            : "not certain";
    count(verdict, row.theirs);
    if (verdict !== "agree" && (showsAll || verdict === "differ" || verdict === "not found")) {
      console.log(
        verdict,
        file,
        row.uid.slice(0, 30),
        row.line,
        "expected",
        row.expected,
        "read",
        found && inWords(found),
      );
    }
  }
}
console.log(totals, `${Math.round(performance.now() - began)} ms`);
for (const [name, number] of [...counts].toSorted(([first], [second]) => (first < second ? -1 : 1)))
  console.log(`${number}\t${name}`);
