/**
 * Every folder of fixtures/diaries holds a diary with one fault or form that real exports have, and what must be read from
 * it. The expected times were reckoned by hand from RFC 5545 and the tzdata changes of the clocks, never printed by the
 * reader; each `says` names the rule.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import * as z from "zod";
import { indexDiary } from "../../src/diary/indexDiary.ts";
import { readBlock } from "../../src/diary/readBlock.ts";
import { SKIP_TEXTS } from "../../src/diary/skipReasons.ts";
import type { Entry } from "../../src/diary/types.ts";
import { formatDay, formatInstant, parseDay } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";

const person = z.strictObject({ name: z.string(), email: z.string().nullable(), phone: z.string().nullable() });
const expectedEntry = z.strictObject({
  key: z.string(),
  start: z.string().optional(),
  date: z.string().optional(),
  end: z.string().optional(),
  summary: z.string().optional(),
  description: z.string().optional(),
  cancelled: z.boolean().optional(),
  attendees: z.array(person).optional(),
});
const expectedFile = z.strictObject({
  says: z.string().min(10),
  zone: z.string(),
  from: z.string(),
  to: z.string(),
  refusal: z.looseObject({ code: z.string() }).optional(),
  raw: z.number().optional(),
  entries: z.array(expectedEntry).optional(),
  skipped: z.array(z.strictObject({ uid: z.string(), reason: z.string() })).optional(),
});

const root = join(import.meta.dirname, "../../fixtures/diaries");
const names = readdirSync(root);

/** The entry as far as the fixture speaks of it. */
const shown = (entry: Entry, wanted: z.infer<typeof expectedEntry>): Record<string, unknown> => ({
  key: entry.key,
  ...(entry.start === null ? {} : { start: formatInstant(entry.start) }),
  ...(entry.date === null ? {} : { date: formatDay(entry.date) }),
  ...(wanted.end === undefined ? {} : { end: entry.end === null ? null : formatInstant(entry.end) }),
  ...(wanted.summary === undefined ? {} : { summary: entry.summary }),
  ...(wanted.description === undefined ? {} : { description: entry.description }),
  ...(wanted.cancelled === undefined ? {} : { cancelled: entry.cancelled }),
  ...(wanted.attendees === undefined ? {} : { attendees: entry.attendees }),
});

test("there are fixtures to read", () => {
  expect(names.length).toBeGreaterThan(40);
});

describe.each(names)("%s", (name) => {
  const wanted = expectedFile.parse(JSON.parse(readFileSync(join(root, name, "expected.json"), "utf8")));
  const bytes = readFileSync(join(root, name, "diary.ics"));
  const zone = Zone.named(wanted.zone) as Zone;
  const horizon = {
    from: zone.startOfDay(parseDay(wanted.from) as number),
    to: zone.startOfDay(parseDay(wanted.to) as number),
  };

  test.each([
    ["knowing the horizon", horizon],
    ["not knowing it", undefined],
  ])(`reads, indexed %s: ${wanted.says}`, (_, known) => {
    const indexed = indexDiary(bytes, known);
    if (wanted.refusal || "refusal" in indexed) {
      expect("refusal" in indexed && indexed.refusal).toEqual(wanted.refusal);
      return;
    }
    expect(indexed.raw).toBe(wanted.raw);
    const readings = indexed.blocks.map((block) => readBlock(block, zone, horizon));
    const entries = new Map(readings.flatMap((reading) => reading.entries).map((entry) => [entry.key, entry]));
    const list = wanted.entries ?? [];
    expect([...entries.keys()].toSorted()).toEqual(list.map((each) => each.key).toSorted());
    for (const each of list) expect(shown(entries.get(each.key) as Entry, each)).toEqual(each);
    const skipped = readings.flatMap((reading) => reading.skipped);
    const inOrder = (items: readonly { uid: string; reason: string }[]): string[] =>
      items.map(({ uid, reason }) => `${uid} ${reason}`).toSorted();
    expect(inOrder(skipped)).toEqual(inOrder(wanted.skipped ?? []));
    // What readers disagree about is said with both answers behind the sentence.
    for (const { reason, text } of skipped) {
      if (reason === "readers-disagree") expect(text).toMatch(/^time not certain: .* One reading: .*; another: .*\.$/);
      else expect(Object.values(SKIP_TEXTS)).toContain(text);
    }
  });
});
