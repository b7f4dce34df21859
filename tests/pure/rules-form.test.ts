/** The rules' form: what is shown and comes back untouched is what is stored, and what is typed is what is meant. */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { settingsSchema } from "../../src/settings.ts";
import { settingsFrom, typedOf, type Typed } from "../../src/web/desk/rules/rulesForm.ts";
import { anySettings, plainSettings } from "./any-settings.ts";

const RUNS = { numRuns: 500 };
const LONG =
  /^(staff|notColour|testWords|clientFrom|protocols|questions|closed|post\.closed|holidays\.add|contact\.address|service\.\d+\.words|test\.[a-z-]+\.kit\.instructions)$/;

/** Boxes stand in the order of the page, and no box stands there twice. */
const TICKED = /^(post\.(collection|delivery)|test\.[a-z-]+\.protocol)$/;

/** What a browser makes of a form's fields. */
const sent = (typed: Typed): Typed => {
  const text = [...typed].map(([name, value]): [string, string] => {
    const known = value.replaceAll("\0", "\ufffd");
    return [name, LONG.test(name) ? known.replace(/\r\n?|\n/g, "\r\n") : known.replace(/[\r\n]/g, "")];
  });
  const boxes = new Map(text.filter(([name]) => TICKED.test(name)).map((field) => [field.join("="), field]));
  const sorted = [...boxes.values()].toSorted(([, one], [, other]) => (one < other ? -1 : 1));
  return new URLSearchParams([...text.filter(([name]) => !TICKED.test(name)), ...sorted]);
};
const meant = (typed: Typed, stored: Parameters<typeof settingsFrom>[1]) =>
  settingsSchema.parse(settingsFrom(typed, stored).given);
const small = settingsSchema.parse({ name: "A", zone: "Europe/London", tests: [{ route: "in-salon", protocol: "x" }] });

test("a form that comes back untouched means the stored settings, to the letter", () => {
  fc.assert(
    fc.property(anySettings, (settings) => {
      expect(JSON.stringify(meant(sent(typedOf(settings)), settings))).toBe(JSON.stringify(settings));
    }),
    RUNS,
  );
});

/** Of two ways to write one thing, one. */
const asOne = (settings: ReturnType<typeof settingsSchema.parse>) => ({
  ...settings,
  diaries: null,
  closed: settings.closed.map((each) => each.replace(/\s/g, "")),
  clientHours: null,
  lastWalkIn: null,
  post: {
    ...settings.post,
    collection: new Set(settings.post.collection),
    delivery: new Set(settings.post.delivery),
    lastCollection: null,
    closed: settings.post.closed.map((each) => each.replace(/\s/g, "")),
  },
  tests: settings.tests.map((each) => ({
    ...each,
    protocol: new Set([each.protocol].flat()),
    kit: each.route === "home-kit" ? { ...each.kit, ownColour: null } : null,
    screening: null,
  })),
  opening:
    settings.opening &&
    Object.keys(settings.opening)
      .map((day) => [day, (settings.opening as Record<string, string[]>)[day]?.length ?? 0])
      .filter(([, count]) => count !== 0),
  protocols: null,
  holidays: {
    country:
      settings.holidays === null ? null : settings.holidays?.country === undefined ? "own" : settings.holidays.country,
    region: settings.holidays?.region ?? null,
    add: settings.holidays?.add.map((each) => each.replace(/\s/g, "")) ?? [],
  },
});

test("a form filled with other settings means those settings", () => {
  fc.assert(
    fc.property(plainSettings, plainSettings, (wanted, stored) => {
      expect(asOne(meant(sent(typedOf(wanted)), stored))).toEqual(asOne(wanted));
    }),
    RUNS,
  );
});

test("a form without fields changes nothing", () => {
  fc.assert(
    fc.property(anySettings, (settings) => {
      expect(meant(new URLSearchParams({ version: "3", do: "save" }), settings)).toEqual(settings);
    }),
    { numRuns: 100 },
  );
});

const typing = (fields: Record<string, string | readonly string[]>) => {
  const typed = typedOf(small);
  for (const [name, value] of Object.entries(fields)) {
    typed.delete(name);
    for (const each of [value].flat()) typed.append(name, each);
  }
  return meant(sent(typed), small);
};

test("hours, lengths and dates are read as people write them", () => {
  const settings = typing({
    opening: "kept",
    "opening.tue": "9 to 5.30 pm",
    "opening.sat": "8:30-13:00; 14:00 – 16:00",
    lastWalkIn: "20 min",
    closed: "2026-12-24 to 2027-01-02\r\n\r\n2027-05-01",
    "test.in-salon.screening.opens": "240 h",
    "retention.evidence": "6 years 6 months",
    "post.lastCollection": "4pm",
  });
  expect(settings.opening?.tue).toEqual(["09:00-17:30"]);
  expect(settings.opening?.sat).toEqual(["08:30-13:00", "14:00-16:00"]);
  expect(settings.opening?.mon).toBeUndefined();
  expect([settings.lastWalkIn, settings.tests[0]?.screening.opens, settings.retention.evidence]).toEqual([
    "PT20M",
    "PT240H",
    "P6Y6M",
  ]);
  expect(settings.closed).toEqual(["2026-12-24/2027-01-02", "2027-05-01"]);
  expect(settings.post.lastCollection).toBe("16:00");
});

test("unticked days are no days, though a browser sends nothing of them", () => {
  const settings = typing({ "post.delivery": ["", "mon", "fri"], "post.holidays": "" });
  expect([settings.post.delivery.toSorted(), settings.post.holidays]).toEqual([["fri", "mon"], false]);
});

test("a row is a service unless it is empty or to go, and a new row is one more", () => {
  const settings = typing({
    "service.0.gone": "yes",
    "service.1.name": "Gloss",
    "service.1.words": "gloss\r\nglaze*",
    "service.1.product": "",
    "service.1.shade": "4,5",
    "service.2.name": "",
    "service.2.words": " ",
  });
  expect(settings.services).toEqual([{ name: "Gloss", words: ["gloss", "glaze*"], product: null, shade: 4.5 }]);
});
