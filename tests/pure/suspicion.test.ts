/** Which readings are held, in which words, and when one counts as seen again. The project's own rules; nothing is looked up. */
import { expect, test } from "vitest";
import { isSameHolding, type ReadingChange, suspect } from "../../src/diary/suspicion.ts";
import { diaryWhy } from "../../src/salon/diaryFaults.ts";
import { isSeenAgain, marksOf } from "../../src/salon/holding.ts";
import { rows } from "../../src/salon/rows.ts";
import { newDiary } from "../../src/salon/newDiary.ts";
import { MINUTE } from "../../src/time/instant.ts";

const BOOK = "-//Quillfen//Appointment book 4.2//EN";
const source = (calendarName: string | null, producer: string | null) => ({ calendarName, producer });
const change = (more: Partial<ReadingChange>): ReadingChange => ({
  before: 10,
  lost: 0,
  moved: 0,
  entries: 10,
  entriesMoved: 0,
  raw: 50,
  was: source(null, null),
  is: source(null, null),
  ...more,
});

test.each<[string, Partial<ReadingChange>, readonly string[]]>([
  ["nothing lay ahead", { before: 0, raw: 0 }, []],
  ["all is still there", {}, []],
  ["half is gone", { lost: 5 }, []],
  ["more than half is gone", { lost: 6 }, ["diary-shrunk"]],
  ["the only one is gone", { before: 1, lost: 1, entries: 0 }, ["diary-shrunk"]],
  ["no entry is left", { lost: 10, raw: 0, entries: 0 }, ["diary-emptied"]],
  ["no entry is left, and all went to other chairs", { lost: 0, raw: 0, entries: 0 }, []],
  ["all of them moved", { moved: 10, entriesMoved: 10 }, ["dates-jumped"]],
  ["just half of them moved", { moved: 5, entriesMoved: 5 }, []],
  ["three of five moved", { before: 5, entries: 5, moved: 3, entriesMoved: 3 }, ["dates-jumped"]],
  ["both of two moved", { before: 2, entries: 2, moved: 2, entriesMoved: 2 }, []],
  ["one series moved, with all its ten occurrences", { moved: 10, entries: 1, entriesMoved: 1 }, []],
  ["another name", { was: source("Juniper", null), is: source("Holly", null) }, ["calendar-renamed"]],
  ["the name in other letters", { was: source("Juniper  Lane", null), is: source(" juniper lane", null) }, []],
  ["a name where there was none", { is: source("Holly", null) }, []],
  ["no name any more", { was: source("Juniper", null) }, []],
  ["another name where nothing lay ahead", { before: 0, was: source("Juniper", null), is: source("Holly", null) }, []],
  ["another program", { was: source(null, BOOK), is: source(null, "-//Thistle//Diary//EN") }, ["producer-changed"]],
  [
    "another version, case and language of one program",
    { was: source(null, BOOK), is: source(null, "-//QUILLFEN//Appointment Book 5.0.1//DE") },
    [],
  ],
  [
    "several at once, the gravest first",
    { lost: 6, entries: 4, moved: 4, entriesMoved: 4, was: source("Juniper", BOOK), is: source("Holly", "other") },
    ["diary-shrunk", "calendar-renamed", "producer-changed", "dates-jumped"],
  ],
])("%s: held for the right reasons", (_when, given, codes) => {
  const suspicion = suspect(change(given));
  expect(suspicion ? [suspicion.code, ...suspicion.also] : []).toEqual(codes);
});

test("the words tell every reason, the counts and the remedy", () => {
  const suspicion = suspect(
    change({ lost: 7, entries: 3, moved: 3, entriesMoved: 3, was: source("Juniper", null), is: source("Holly", null) }),
  );
  expect(suspicion && diaryWhy(suspicion)).toEqual({
    code: "diary-shrunk",
    text:
      "This reading has 3 of the 10 bookings that lay ahead. The calendar has another name than before, so its address may now serve another one. " +
      "In this reading 3 of the 3 bookings still ahead have moved at once. " +
      "It is held until it is seen again or you accept it; the last good reading stays.",
  });
  const emptied = suspect(change({ before: 1, lost: 1, raw: 0 }));
  expect(emptied && diaryWhy(emptied).text).toContain("no entry at all, where 1 booking lay ahead");
});

const lost = (uids: readonly string[], moved: readonly { uid: string; start: number }[] = []) => {
  const suspicion = suspect(change({ lost: 10, moved: moved.length, entries: 3, entriesMoved: moved.length }));
  if (!suspicion) throw new Error("this change is not suspicious");
  return marksOf(suspicion, { lost: uids, moved });
};
const heldAt = (since: number, marks: readonly string[]) => ({
  number: 1,
  why: { code: "diary-shrunk", text: "" },
  raw: 0,
  calendarName: null,
  producer: null,
  since,
  marks,
});
const moves = (by: number) => ["a", "b", "c"].map((uid) => ({ uid, start: 1_000 + by }));

test.each([
  ["the same again", lost(["a", "b"]), true],
  ["fewer of them", lost(["b"]), true],
  ["one more", lost(["a", "b", "c"]), false],
  ["as many, but others", lost(["a", "c"]), false],
  ["the same, and dates that jumped too", lost(["a", "b"], moves(0)), false],
])("a reading that loses %s than the held one: seen again is %o", (_when, marks, isSame) => {
  expect(isSameHolding(lost(["a", "b"]), marks)).toBe(isSame);
});

test("dates that jumped elsewhere than in the held reading wait anew, and another name for a third one does not", () => {
  expect(isSameHolding(lost([], moves(0)), lost([], moves(0)))).toBe(true);
  expect(isSameHolding(lost([], moves(0)), lost([], moves(60)))).toBe(false);
  const renamed = (name: string) => {
    const suspicion = suspect(change({ was: source("Juniper", null), is: source(name, null) }));
    return suspicion ? marksOf(suspicion, { lost: [], moved: moves(0) }) : [];
  };
  expect(renamed("Holly 2 December")).toEqual(renamed("Holly 3 December"));
  expect(renamed("Holly")).not.toEqual([]);
});

test.each([
  ["a pushed diary, a second early", { name: "main" }, 15 * MINUTE - 1, false],
  ["a pushed diary, after fifteen minutes", { name: "main" }, 15 * MINUTE, true],
  [
    "a pulled one before its interval is over",
    { name: "main", url: "https://a.example/", pollMinutes: 60 },
    3_599,
    false,
  ],
  ["a pulled one after its interval", { name: "main", url: "https://a.example/", pollMinutes: 60 }, 3_600, true],
])("%s: seen again is decided by the clock", (_when, settings, after, isSeen) => {
  const held = heldAt(5_000, lost(["a"]));
  const given = { url: null, pollMinutes: 15, ...settings };
  expect(isSeenAgain(held, heldAt(5_000 + after, lost(["a"])), given)).toBe(isSeen);
  expect(isSeenAgain(null, heldAt(5_000 + after, lost(["a"])), given)).toBe(false);
  expect(isSeenAgain(held, heldAt(5_000 + after, lost(["a", "b"])), given)).toBe(false);
});

test("a diary stored by older code has its defaults, and what was held then can still be accepted", () => {
  const { held, calendarName, producer, renewals, ...old } = newDiary("main", 1_000);
  expect(rows.diary.parse(old)).toEqual({ ...old, held, calendarName, producer, renewals });
  const why = { code: "diary-emptied", text: "…" };
  const report = {
    name: "main",
    at: 2_000,
    status: "held",
    reason: why,
    counts: { raw: 7 },
    skipped: [],
    unsorted: [],
  };
  const waiting = rows.diary.parse({ ...old, begun: 4, report, trouble: { since: 2_000, kind: "held", why } });
  expect(waiting.held).toEqual({ since: 2_000, number: 4, why, marks: [], raw: 7, calendarName: null, producer: null });
  expect(waiting.report).toEqual({ ...report, unclear: [], held: null });
});
