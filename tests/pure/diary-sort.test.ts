/** Sorting entries and finding bookings. The words are the trade's own; the names are invented. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { findBookings } from "../../src/diary/findBookings.ts";
import { findClient, guessClient } from "../../src/diary/findClient.ts";
import { foldName } from "../../src/diary/foldName.ts";
import { compileSorting, sortEntry } from "../../src/diary/sortEntry.ts";
import type { Entry, Person, Sorted } from "../../src/diary/types.ts";
import { settingsSchema } from "../../src/settings.ts";
import { HOUR, MINUTE } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";

const TEN = Date.UTC(2026, 11, 11, 10) / 1000;
const zone = Zone.named("Europe/London") as Zone;
const settings = (more: object = {}) =>
  settingsSchema.parse({
    name: "Juniper Lane",
    zone: "Europe/London",
    tests: [{ route: "in-salon", protocol: "salon-48h" }],
    ...more,
  });
const sorting = (more: object = {}) => compileSorting(settings(more));

const entry = (summary: string, more: Partial<Entry> = {}): Entry => ({
  key: "a",
  uid: "a",
  recurrenceId: null,
  start: TEN,
  date: null,
  end: TEN + HOUR,
  summary,
  description: "",
  location: "",
  attendees: [],
  cancelled: false,
  ...more,
});
const person = (name: string, email: string | null = null, phone: string | null = null): Person => ({
  name,
  email,
  phone,
});
const sort = (summary: string, more: Partial<Entry> = {}, set: object = {}): Sorted =>
  sortEntry(entry(summary, more), sorting(set));
const codeOf = (sorted: Sorted): string => (sorted.kind === "unsorted" ? sorted.why.code : sorted.kind);
const clientOf = (sorted: Sorted): string | null => (sorted.kind === "booking" ? sorted.client.name : null);

describe("what an entry is", () => {
  test.each([
    ["Root tint - Mia Hart", "booking"],
    ["ROOTS - Mia Hart", "booking"],
    ["Balayáge - Mia Hart", "booking"],
    ["T section - Mia Hart", "booking"],
    ["Half-head foils - Mia Hart", "booking"],
    ["Cut & colour - Mia Hart", "booking"],
    ["Retouch - Mia Hart", "booking"],
    ["Demi-permanent - Mia Hart", "booking"],
    ["Cut - Mia Hart", "not-colour"],
    ["Perm - Mia Hart", "not-colour"],
    ["Consultation - Mia Hart", "not-colour"],
    ["Patch test - Mia Hart", "test"],
    ["P.D. test - Mia Hart", "test"],
    ["Skin test and fringe trim - Mia Hart", "test"],
    ["Tint and skin test - Mia Hart", "test-and-colour"],
    ["Colur - Mia Hart", "no-match"],
    ["Mia Hart", "no-match"],
    ["Stint at the till", "no-match"],
    ["Full head tint", "no-name"],
    ["Busy", "no-words"],
    ["", "no-words"],
  ])("%s: %s", (summary, code) => {
    expect(codeOf(sort(summary))).toBe(code);
  });

  test("an entry with a date and no time is unsorted, whatever its words", () => {
    expect(codeOf(sort("Tint - Mia Hart", { start: null, date: 20_798 }))).toBe("all-day");
    expect(codeOf(sort("Closed", { start: null, date: 20_798 }))).toBe("all-day");
  });

  test("a cancelled entry is never a booking", () => {
    expect(sort("Tint - Mia Hart", { cancelled: true }).kind).toBe("not-colour");
  });

  test("the nearest service is named for a slip of the pen, and none for another word", () => {
    const services = [
      { name: "Tinting", words: ["tint*"] },
      { name: "Balayage", words: ["balayage*"] },
    ];
    const nearest = (summary: string): unknown => {
      const sorted = sort(summary, {}, { services });
      return sorted.kind === "unsorted" ? sorted.nearest : sorted.kind;
    };
    expect(nearest("Balyage - Mia Hart")).toBe("Balayage");
    expect(nearest("Tnit - Mia Hart")).toBe("Tinting");
    expect(nearest("Yoga - Mia Hart")).toBeNull();
  });

  test("the longest word decides the service, then the settings' order", () => {
    const services = [
      { name: "Second", words: ["head"] },
      { name: "First", words: ["tint"] },
      { name: "Long", words: ["full head tint"] },
    ];
    const serviceOf = (summary: string): unknown => {
      const sorted = sort(summary, {}, { services });
      return sorted.kind === "booking" ? sorted.service : sorted.kind;
    };
    expect(serviceOf("Full head tint - Mia Hart")).toBe("Long");
    expect(serviceOf("Head tint - Mia Hart")).toBe("Second");
  });

  test("without a star a word is whole; with one any ending fits", () => {
    const set = {
      services: [
        { name: "Any", words: ["tint*"] },
        { name: "Whole", words: ["glaze"] },
      ],
    };
    expect(codeOf(sort("Tinting - Mia Hart", {}, set))).toBe("booking");
    expect(codeOf(sort("Glazed - Mia Hart", {}, set))).toBe("no-match");
    expect(codeOf(sort("Glaze - Mia Hart", {}, set))).toBe("booking");
  });
});

describe("who the client is", () => {
  test.each([
    ["Tint - Mia Hart", "Mia Hart"],
    ["Mia Hart - Tint", "Mia Hart"],
    ["Full head - T-section - Mia Hart", "Mia Hart"],
    ["Tint – Mia  Hart", "Mia Hart"],
    ["Tint - Mia Root", "Mia Root"],
    ["Mia Root - Tint", "Mia Root"],
    ["Tint - toner", null],
    ["Tint -", null],
    ["Tint Mia Hart", null],
    ["Tint - Nell Gray", null],
  ])("%s: %s", (summary, name) => {
    expect(clientOf(sort(summary, {}, { staff: ["Nell Gray"] }))).toBe(name);
  });

  test("the first attendee who is not staff is the client, with address and telephone", () => {
    const attendees = [
      person("NELL  GRAY", "nell@salon.example"),
      person("Mia Hart", "mia@post.example"),
      person("Al", "al@post.example"),
    ];
    const sorted = sort(
      "Tint",
      { attendees, description: "Ring tel:+44 1632 960002; not 1632" },
      { staff: ["Nell Gray"] },
    );
    expect(sorted).toEqual({
      kind: "booking",
      service: "Colour",
      client: person("Mia Hart", "mia@post.example", "+44 1632 960002"),
    });
  });

  test("staff are known by their address too, and the salon itself is nobody's client", () => {
    const attendees = [person("Front desk", "hello@salon.example"), person("N.", "nell@salon.example")];
    const set = { staff: ["nell@salon.example"], contact: { email: "hello@salon.example", phone: "01632 960000" } };
    expect(codeOf(sort("Tint", { attendees }, set))).toBe("no-name");
    const sorted = sort("Tint - Mia Hart", { attendees, description: "tel:01632 960000" }, set);
    expect(sorted).toEqual({ kind: "booking", service: "Colour", client: person("Mia Hart") });
  });

  test("a name from the summary takes the address of an attendee without a name", () => {
    const sorted = sort("Tint - Mia Hart", { attendees: [person("", "mia@post.example")] });
    expect(sorted.kind === "booking" && sorted.client).toEqual(person("Mia Hart", "mia@post.example"));
  });

  test("templates are tried in the settings' order, fixed text and all", () => {
    const set = { clientFrom: ["[{client}] {service}", "{service} with {client} (chair 2)"] };
    expect(clientOf(sort("[Mia Hart] Tint", {}, set))).toBe("Mia Hart");
    expect(clientOf(sort("Tint with Mia Hart (chair 2)", {}, set))).toBe("Mia Hart");
    expect(clientOf(sort("Tint - Mia Hart", {}, set))).toBeNull();
  });

  test("no template and no summary keeps the reader busy", () => {
    const compiled = sorting({ clientFrom: ["{service}a{client}", "{client}{service}", "({service}*)+$ {client}"] });
    const began = performance.now();
    sortEntry(entry(`tint ${"a".repeat(60_000)}`), compiled);
    expect(performance.now() - began).toBeLessThan(1_000);
  });
});

describe("bookings of a diary", () => {
  const found = (...entries: Entry[]) =>
    findBookings(
      entries.map((each) => ({ entry: each, sorted: sortEntry(each, sorting()) })),
      "chair 1",
      zone,
    );
  const at = (
    key: string,
    summary: string,
    minutes: number,
    length: number | null = 60,
    more: Partial<Entry> = {},
  ): Entry =>
    entry(summary, {
      key,
      uid: key,
      start: TEN + minutes * MINUTE,
      end: length === null ? null : TEN + (minutes + length) * MINUTE,
      ...more,
    });
  const spans = (...entries: Entry[]) =>
    found(...entries).bookings.map(({ key, start, end }) => [
      key,
      (start - TEN) / MINUTE,
      end === null ? null : (end - TEN) / MINUTE,
    ]);

  test("back-to-back colours of one client are one booking from the first start", () => {
    expect(spans(at("b", "Toner - mia hart", 90), at("a", "Tint - Mia Hart", 0))).toEqual([["a", 0, 150]]);
  });

  test("an hour between end and start still joins, a minute more does not", () => {
    expect(spans(at("a", "Tint - Mia Hart", 0), at("b", "Toner - Mia Hart", 120))).toEqual([["a", 0, 180]]);
    expect(spans(at("a", "Tint - Mia Hart", 0), at("b", "Toner - Mia Hart", 121))).toHaveLength(2);
  });

  test("a chain of three is one, and an entry without an end counts from its start", () => {
    expect(
      spans(at("a", "Tint - Mia Hart", 0, null), at("b", "Toner - Mia Hart", 60), at("c", "Foils - Mia Hart", 180)),
    ).toEqual([["a", 0, 240]]);
  });

  test("other names, other addresses and the next local day stay apart", () => {
    const mia = { attendees: [person("Mia Hart", "mia@post.example")] };
    const other = { attendees: [person("Mia Hart", "m.hart@post.example")] };
    expect(spans(at("a", "Tint - Mia Hart", 0), at("b", "Tint - Mia Harte", 60))).toHaveLength(2);
    expect(spans(at("a", "Tint", 0, 60, mia), at("b", "Toner", 60, 60, other))).toHaveLength(2);
    expect(spans(at("a", "Tint", 0, 60, mia), at("b", "Toner", 60, 60, mia))).toHaveLength(1);
    const [evening, night] = [23 * 60 + 30 - 600, 24 * 60 + 10 - 600];
    expect(spans(at("a", "Tint - Mia Hart", evening, 30), at("b", "Toner - Mia Hart", night))).toHaveLength(2);
  });

  test("the day that parts two colours is the salon's, not that of UTC", () => {
    const midnightIn = (place: string, hours: number) => {
      const entries = [
        at("a", "Tint - Mia Hart", (hours - 10) * 60 - 30, 30),
        at("b", "Toner - Mia Hart", (hours - 10) * 60),
      ];
      const sorted = entries.map((each) => ({ entry: each, sorted: sortEntry(each, sorting()) }));
      return findBookings(sorted, "chair 1", Zone.named(place) as Zone).bookings.length;
    };
    // In December midnight is 24:00 UTC in London, 08:00 UTC in Los Angeles and 11:00 UTC in Auckland.
    expect(["Europe/London", "America/Los_Angeles", "Pacific/Auckland"].map((place) => midnightIn(place, 24))).toEqual([
      2, 1, 1,
    ]);
    expect([midnightIn("America/Los_Angeles", 8), midnightIn("Pacific/Auckland", 11)]).toEqual([2, 2]);
  });

  test("what is no colour between two colours of a client does not part them", () => {
    expect(
      spans(at("a", "Tint - Mia Hart", 0), at("c", "Cut - Mia Hart", 60), at("b", "Toner - Mia Hart", 100)),
    ).toEqual([["a", 0, 160]]);
  });

  test("tests, questions and what is no colour are counted apart, cancelled entries not at all", () => {
    const all = found(
      at("a", "Tint - Mia Hart", 0),
      at("b", "Patch test - Mia Hart", 300, 15),
      at("c", "Cut - Al Reed", 400),
      at("d", "Colur - Bo Larch", 500),
      at("e", "Tint - Cy Finch", 600, 60, { cancelled: true }),
    );
    expect(all.bookings.map((each) => each.key)).toEqual(["a"]);
    expect(all.tests.map((each) => [each.key, each.client?.name])).toEqual([["b", "Mia Hart"]]);
    expect(all.unsorted.map((each) => [each.entry.key, each.why.code])).toEqual([["d", "no-match"]]);
    expect(all.notColour).toBe(1);
    expect(all.hidesNames).toBe(false);
  });

  test("a diary that shows only taken times or services hides names; one name is enough to say it does not", () => {
    expect(found(at("a", "Busy", 0), at("b", "Busy", 60)).hidesNames).toBe(true);
    expect(found(at("a", "Tint", 0), at("b", "Cut", 60)).hidesNames).toBe(true);
    expect(found(at("a", "Tint", 0), at("b", "Tint - Mia Hart", 60)).hidesNames).toBe(false);
    expect(found(at("a", "Cut", 0)).hidesNames).toBe(false);
    expect(found().hidesNames).toBe(false);
  });

  test("the order of the entries changes nothing", () => {
    const entries = [
      at("a", "Tint - Mia Hart", 0),
      at("b", "Toner - Mia Hart", 90),
      at("c", "Foils - Mia Hart", 200),
      at("d", "Tint - Al Reed", 0),
      at("e", "Toner - Al Reed", 30),
    ];
    const expected = spans(...entries);
    expect(expected).toEqual([
      ["a", 0, 260],
      ["d", 0, 90],
    ]);
    fc.assert(
      fc.property(fc.shuffledSubarray(entries, { minLength: entries.length }), (shuffled) => {
        expect(spans(...shuffled)).toEqual(expected);
      }),
    );
  });
});

test("names are compared without case, accents and surplus blanks", () => {
  expect(foldName("  Zoë   O’Brien ")).toBe(foldName("ZOE O'BRIEN"));
  expect(foldName("Strauß")).toBe(foldName("STRAUSS"));
  expect(foldName("Ødegård")).toBe(foldName("odegard"));
  expect(foldName("Mia")).not.toBe(foldName("Mira"));
});

test.each([
  ["The big one - Tansy Ferrow", "Tansy Ferrow"],
  ["The big one - Ines", "The big one"],
  ["The big one - 2", "The big one"],
  ["The big one", null],
  [`The big one - ${"A".repeat(300)}`, "The big one"],
])("of %s a person is offered the name %s, and nothing is made of it", (summary, guess) => {
  const rules = sorting({ staff: ["Ines"], clientFrom: ["attendee", "{service} - {client}", "{client} - {service}"] });
  expect(findClient(entry(summary), rules)).toBeNull();
  expect(guessClient(entry(summary), rules)).toBe(guess);
});
