/**
 * Judges the diary reader by calendar files that nobody here wrote: `npm run corpus -- FOLDER [--first N] [--least SHARE] [--all]`, where
 * FOLDER holds `files/` and `expected.tsv` (tests/corpus/expectedStarts.ts). It reads and writes them as `npm run read --
 * --json` does, compares each start with what two independent readers agreed on, and does so again under another host zone:
 * the same bytes must give the same reading. The files are not ours to ship, so none is in the project.
 * Exit status 1: something was read wrongly, is not accounted for, or depends on the host; or a smaller share of the rows than
 * `--least` was read right, since a reader that is certain of nothing is never wrong. Occurrences are counted, not judged.
 */
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { createReadStream, existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { readCalendar } from "../src/local/readCalendar.ts";
import { writeJson } from "../src/local/readJson.ts";
import { dayFrom } from "../src/time/instant.ts";
import { Zone } from "../src/time/zone.ts";
import { expectedStarts } from "./corpus/expectedStarts.ts";
import { judge, reading, type Verdict } from "./corpus/judge.ts";
import { SHOWN_WRONG } from "./corpus/shownWrong.ts";

const [folder = "", ...flags] = process.argv.slice(2);
const stop = (text: string): never => {
  console.error(text);
  process.exit(2);
};
if (folder === "") stop("no folder is named; give the one that holds files/ and expected.tsv.");
for (const name of ["files", "expected.tsv"])
  if (!existsSync(join(folder, name)))
    stop(`${folder} has no ${name}; give the folder that holds files/ and expected.tsv.`);
const FLAGS = ["--all", "--digest", "--first", "--least"];
for (const flag of flags.filter((each) => each.startsWith("-") && !FLAGS.includes(each)))
  stop(`${flag} is no option; there are ${FLAGS.join(", ")}.`);
const numberOf = (flag: string, otherwise: number): number =>
  flags.includes(flag) ? Number(flags[flags.indexOf(flag) + 1]) : otherwise;
const showsAll = flags.includes("--all");
const isDigest = flags.includes("--digest");
const first = numberOf("--first", Number.MAX_SAFE_INTEGER);
const least = numberOf("--least", 0);
if (!(least >= 0 && least <= 1)) stop("--least must be a share from 0 to 1; write it as in --least 0.9.");
if (!(first >= 1)) stop("--first must be a number of files from 1; write it as in --first 100.");
const zone = Zone.named("UTC") as Zone;
/** Long enough that clocks change on both sides of the world, and that a series meets them. */
const window = { from: dayFrom(2012, 1, 1) as number, to: dayFrom(2016, 1, 1) as number };

/** What the command writes of one file. */
const readAsCommand = async (file: string): Promise<string> => {
  const octets = createReadStream(join(folder, "files", file));
  const read = await readCalendar(octets, (error) => {
    throw error;
  });
  const pieces: string[] = [];
  const output = { write: async (text: string) => void pieces.push(text) };
  await writeJson(file, read, { zone, window }, output);
  return pieces.join("");
};

const table = expectedStarts(readFileSync(join(folder, "expected.tsv"), "utf8"));
const digest = createHash("sha256");
const counts: Record<Verdict, number> = {
  right: 0,
  "not certain": 0,
  "skipped with its reason": 0,
  wrong: 0,
  lost: 0,
};
const totals = {
  files: 0,
  refused: 0,
  raw: 0,
  entries: 0,
  skipped: 0,
  unaccounted: 0,
  occurrences: 0,
  noRow: 0,
  madeUp: 0,
};
const trusted = new Map<string, number>();
const began = performance.now();
const files = readdirSync(join(folder, "files")).sort().slice(0, first);
for (const file of files) {
  const line = await readAsCommand(file);
  digest.update(line);
  if (isDigest) continue;
  const read = reading.parse(JSON.parse(line));
  const accounted = read.entries.length + read.skipped.length;
  totals.files++;
  totals.raw += read.raw;
  totals.entries += read.entries.length;
  totals.skipped += read.skipped.length;
  totals.occurrences += read.occurrences.length;
  if (read.status === "refused") {
    totals.refused++;
    if (showsAll) console.log(`refused: ${file}: ${read.reason}, ${read.raw} entries seen`);
  }
  if (read.raw !== accounted) {
    totals.unaccounted += Math.abs(read.raw - accounted);
    console.log(`UNACCOUNTED: ${file}: ${read.raw} in the text, ${accounted} told of`);
  }
  const here = table.get(file) ?? { entries: [], madeUp: 0 };
  totals.madeUp += here.madeUp;
  // Whoever says that rows are made up must show that the text has no more entries than the others.
  if (here.madeUp > 0 && read.raw !== here.entries.length) {
    totals.unaccounted++;
    console.log(`UNACCOUNTED: ${file}: ${read.raw} in the text, ${here.entries.length} rows that are not made up`);
  }
  totals.noRow += Math.max(0, read.raw - here.entries.length);
  for (const { expected, verdict, read: heard } of judge(here.entries, read.entries, read.skipped)) {
    counts[verdict]++;
    if (verdict === "right") trusted.set(expected.by, (trusted.get(expected.by) ?? 0) + 1);
    if (verdict === "wrong" || verdict === "lost" || (showsAll && verdict !== "right")) {
      console.log(`${verdict}: ${file} ${expected.uid.slice(0, 30)} ${expected.line}`);
      console.log(
        `  expected ${expected.start ?? "nothing certain"} by ${expected.by} (${expected.verdict}), read ${heard}`,
      );
    }
  }
}
const print = digest.digest("hex");
if (isDigest) console.log(print);
else {
  const again = [import.meta.filename, folder, "--first", String(first), "--digest"];
  const env = { ...process.env, TZ: process.env["TZ"] === "Pacific/Auckland" ? "UTC" : "Pacific/Auckland" };
  const elsewhere = spawnSync(process.execPath, again, { env, encoding: "utf8" });
  const isSame = elsewhere.stdout.trim() === print;
  const { raw, entries, skipped } = totals;
  console.log(
    `${totals.files} files, ${totals.refused} of them refused, in ${Math.round(performance.now() - began)} ms`,
  );
  console.log(
    `${raw} VEVENTs: ${entries} as entries, ${skipped} skipped with a reason, ${totals.unaccounted} unaccounted for`,
  );
  console.log(`${totals.occurrences} occurrences from 2012 to 2015`);
  console.log(`expected.tsv, where ${SHOWN_WRONG.length} rows are put right from the bytes:`);
  for (const [verdict, count] of Object.entries(counts)) console.log(`${String(count).padStart(6)} ${verdict}`);
  console.log(`  right by the word of ${[...trusted].map(([by, count]) => `${by} ${count}`).join(", ")}`);
  console.log(`  ${totals.noRow} VEVENTs have no row; ${totals.madeUp} rows are of events that the text does not have`);
  console.log(isSame ? `the same under TZ=${env.TZ}` : `DIFFERENT under TZ=${env.TZ} ${elsewhere.stderr}`);
  if (counts.right === 0) console.log("NOTHING WAS JUDGED RIGHT: expected.tsv has no row that fits these files");
  const share = counts.right / Object.values(counts).reduce((sum, count) => sum + count, 0);
  if (share < least) console.log(`TOO FEW RIGHT: ${share.toFixed(3)} of the rows, and ${least} are asked for`);
  const isGood = counts.right > 0 && share >= least && counts.wrong + counts.lost + totals.unaccounted === 0 && isSame;
  process.exitCode = isGood ? 0 : 1;
}
