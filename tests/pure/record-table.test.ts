/**
 * Every cell of the table of records against the engine and the door. The source of each expectation is the rule of
 * counting.md that its reason names; the page that is printed from the table is compared with DEVELOPERS.md.
 */
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { countBack } from "../../src/plan/countBack.ts";
import { checkFact } from "../../src/plan/factCheck.ts";
import { NO_HOLIDAYS } from "../../src/plan/holidays.ts";
import type { TableStanding } from "../../src/plan/recordTable/cell.ts";
import { printRecordTable } from "../../src/plan/recordTable/printRecordTable.ts";
import { type GivenRecord, TABLE_COLOUR, TABLE_SALON } from "../../src/plan/recordTable/states.ts";
import { RECORD_TABLE, RECORDS, STATES, type StateName } from "../../src/plan/recordTable.ts";
import { compileRules } from "../../src/plan/rules.ts";
import { type Fact, RECORD_KINDS } from "../../src/plan/types.ts";
import { settingsSchema } from "../../src/settings.ts";
import type { Instant } from "../../src/time/instant.ts";
import { bookingAt, makeFact } from "./record-facts.ts";

const compiled = compileRules(settingsSchema.parse(TABLE_SALON), NO_HOLIDAYS, "salon");
if (!compiled.ok) throw new Error(compiled.refusals[0]?.text);
const { rules } = compiled;

const factsOf = (given: readonly GivenRecord[]): readonly Fact[] =>
  given.map((each, index) => makeFact({ id: `given-${index}`, ...each }));

const standingAt = (state: StateName, facts: readonly Fact[], now: Instant): TableStanding | "unsaid" => {
  const booking = { ...bookingAt(TABLE_COLOUR), cancelled: STATES[state].cancelled };
  const plan = countBack({ booking, facts, samePerson: true, now }, rules);
  if (plan.standing !== "past") return plan.standing;
  const first = plan.why[0]?.code;
  return first === "stop" || first === "ready" || first === "not-ready" ? `past-${first}` : "unsaid";
};

describe("the table is whole", () => {
  test("holds every record in every state, once", () => {
    const states = Object.keys(STATES);
    const pairs = new Set(RECORD_TABLE.map(({ state, record }) => `${state} ${record}`));
    expect(pairs.size).toBe(RECORD_TABLE.length);
    expect(RECORD_TABLE.length).toBe(states.length * Object.keys(RECORDS).length);
    expect(new Set(RECORD_TABLE.map((cell) => cell.state))).toEqual(new Set(states));
  });
  test("has every kind of record, outcome and ground, and every standing", () => {
    const written = Object.values(RECORDS).map(({ write }) => write(STATES.ready));
    expect(new Set(written.map(({ kind }) => kind))).toEqual(new Set(RECORD_KINDS));
    const outcomes = new Set(written.map(({ kind, outcome, reason }) => [kind, outcome, reason].join(" ")));
    for (const each of [
      "pass ",
      "test-needed ",
      "do-not-colour under-16",
      "do-not-colour past-reaction",
      "do-not-colour other",
    ])
      expect(outcomes).toContain(`screened ${each}`);
    for (const each of ["clear", "reaction", "not-sure"]) expect(outcomes).toContain(`read ${each} `);
    expect([...new Set(RECORD_TABLE.map((cell) => cell.standing))].toSorted()).toEqual(
      "cancelled due late no-time on-track past-not-ready past-ready past-stop ready refused stop".split(" "),
    );
  });
  test("names a rule for every cell", () => {
    expect(RECORD_TABLE.filter(({ reason }) => !/\(\d{2}(, \d{2})*\)$/.test(reason))).toEqual([]);
  });
  test("is read by no part of the service", () => {
    const folder = new URL("../../src/", import.meta.url).pathname;
    const readers = readdirSync(folder, { recursive: true, encoding: "utf8" })
      .filter((name) => /\.tsx?$/.test(name) && !name.startsWith("plan/recordTable"))
      .filter((name) => /recordTable/i.test(readFileSync(`${folder}${name}`, "utf8")));
    expect(readers).toEqual([]);
  });
});

describe("each state stands as it says", () => {
  test.each(Object.keys(STATES) as StateName[])("%s", (state) => {
    const { given, now, standing } = STATES[state];
    const facts = factsOf(given);
    for (const [index, each] of facts.entries())
      expect(checkFact(each, facts.slice(0, index), each.recorded)).toEqual([]);
    expect(standingAt(state, facts, now)).toBe(standing);
  });
});

describe("each record in each state", () => {
  test.each(RECORD_TABLE)("$state + $record: $standing", ({ state, record, standing, reason }) => {
    const { given, now } = STATES[state];
    const known = factsOf(given);
    const written = RECORDS[record].write(STATES[state]);
    const moment = Math.max(now, written.at);
    const fact = makeFact({ id: "new", recorded: moment, ...written });
    const codes = checkFact(fact, known, moment).map(({ code }) => code);
    if (codes.length > 0)
      expect([standing, codes]).toEqual(["refused", expect.arrayContaining([reason.split(":")[0]])]);
    else expect([standingAt(state, [...known, fact], moment), reason]).toEqual([standing, reason]);
  });
});

describe("DEVELOPERS.md", () => {
  const [begin, end] = ["<!-- record table: begin -->\n", "\n<!-- record table: end -->"];
  const page = new URL("../../DEVELOPERS.md", import.meta.url).pathname;
  const split = (text: string): readonly [string, string, string] => {
    const [from, to] = [text.indexOf(begin), text.indexOf(end)];
    if (from < 0 || to < from) throw new Error(`DEVELOPERS.md has lost its markers ${begin.trim()} and ${end.trim()}`);
    return [text.slice(0, from + begin.length), text.slice(from + begin.length, to), text.slice(to)];
  };
  test("shows the table as it is", () => {
    if (process.env["UPDATE_RECORD_TABLE"]) {
      const [before, , after] = split(readFileSync(page, "utf8"));
      writeFileSync(page, `${before}${printRecordTable()}${after}`);
    }
    const [, shown] = split(readFileSync(page, "utf8"));
    expect(
      shown,
      "the table has changed: UPDATE_RECORD_TABLE=1 npx vitest run --config tests/vitest.config.ts --project utc tests/pure/record-table.test.ts writes it anew",
    ).toBe(printRecordTable());
  });
});
