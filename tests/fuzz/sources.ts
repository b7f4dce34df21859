/** What is mutated: the project's own diaries, and real files of others where a folder of them lies at hand. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { compileSorting } from "../../src/diary/compileSorting.ts";
import { settingsSchema } from "../../src/settings.ts";
import { Zone } from "../../src/time/zone.ts";
import type { JudgeBy } from "./judge.ts";

const root = join(import.meta.dirname, "../..");

/** @param folder that holds `.ics` files; one that is not there adds nothing */
export const sourcesIn = (folder: string): Buffer[] => {
  const own = join(root, "fixtures/diaries");
  const fixtures = readdirSync(own).map((name) => readFileSync(join(own, name, "diary.ics")));
  const others = existsSync(folder)
    ? readdirSync(folder)
        .filter((name) => name.endsWith(".ics"))
        .sort()
    : [];
  return [...fixtures, ...others.map((name) => readFileSync(join(folder, name)))];
};

/** Where files of others are looked for, unless another folder is named. */
export const OTHERS = process.env["CORPUS"]
  ? join(process.env["CORPUS"], "files")
  : join(root, "../shared/corpus/files");

const year = (number: number): number => Date.UTC(number, 0, 1) / 1000;
const SALON = { name: "x", zone: "UTC", tests: [{ route: "in-salon", protocol: "salon-48h" }] };
const settings = settingsSchema.parse(SALON);
const others = settingsSchema.parse({ ...SALON, services: [{ name: "Class", words: ["test", "event"] }] });

const NOW = { from: Date.UTC(2026, 10, 1) / 1000, to: Date.UTC(2027, 11, 6) / 1000 };
const ALL_TIME = { from: year(1900), to: year(2100) };

export const judgeBy: JudgeBy = {
  zones: ["UTC", "Europe/London", "America/New_York", "Pacific/Auckland", "Asia/Kathmandu"].map(
    (name) => Zone.named(name) as Zone,
  ),
  // The wide one costs the most by far, and is seldom needed.
  horizons: [NOW, NOW, NOW, { from: year(1995), to: year(1999) }, { from: year(2010), to: year(2012) }, ALL_TIME],
  sorting: compileSorting(settings),
  otherSorting: compileSorting(others),
};
