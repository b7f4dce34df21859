/** tests/points.md names a test for each of the 43 points; a line that names one that is not there is a promise nobody keeps. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";

const root = join(import.meta.dirname, "../..");
const rows = readFileSync(join(root, "tests/points.md"), "utf8")
  .split("\n")
  .map((line) =>
    line
      .split("|")
      .slice(1, -1)
      .map((cell) => cell.trim()),
  )
  .filter(([point]) => /^\d+$/.test(point ?? ""));

test("every point from 1 to 43 has its line", () => {
  expect(rows.map(([point]) => Number(point))).toEqual(Array.from({ length: 43 }, (_, n) => n + 1));
});

test.each(rows.map(([point = "", , file = "", title = ""]) => [point, file, title]))(
  "point %s is shown by a test in %s",
  (_, file, title) => {
    const address = join(root, file);
    expect(existsSync(address)).toBe(true);
    const quoted = [`"${title}"`, `\`${title}\``];
    const text = readFileSync(address, "utf8");
    expect(
      quoted.some((name) => new RegExp(String.raw`(test|describe)[^"\`]*`).test(text) && text.includes(name)),
    ).toBe(true);
  },
);
