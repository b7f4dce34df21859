/** Who a booking and who a client is: each rule a row. The project's own rules; nothing is looked up. */
import { expect, test } from "vitest";
import { PeopleIndex } from "../../src/diary/clients.ts";
import { type KnownBooking, matchBookings, type OwnedBooking } from "../../src/diary/identity.ts";
import { DAY_SECONDS, parseInstant } from "../../src/time/instant.ts";

const NOW = parseInstant("2026-12-01T09:00:00Z") ?? 0;
const HORIZON = { from: NOW - 30 * DAY_SECONDS, to: NOW + 400 * DAY_SECONDS };

const known = (uid: string, inDays: number, more: Partial<KnownBooking> = {}): KnownBooking => ({
  uid,
  key: uid,
  diary: "main",
  client: "c1",
  service: "Colour",
  start: NOW + inDays * DAY_SECONDS,
  firstSeen: NOW - 90 * DAY_SECONDS,
  cancelledAt: null,
  ...more,
});
const found = (key: string, inDays: number, client = "c1", diary = "main"): OwnedBooking => ({
  client,
  found: {
    key,
    uid: key,
    recurrenceId: null,
    diary,
    start: NOW + inDays * DAY_SECONDS,
    end: null,
    summary: "Root tint",
    service: "Colour",
    client: { name: "Mara Quillfeather", email: null, phone: null },
  },
});

interface Row {
  readonly when: string;
  readonly known: readonly KnownBooking[];
  readonly found: readonly OwnedBooking[];
  /** Identity ← key of the entry that carries it. */
  readonly kept?: Readonly<Record<string, string>>;
  readonly added?: Readonly<Record<string, string>>;
  readonly vanished?: readonly string[];
  readonly unclear?: readonly string[];
}

const TABLE: readonly Row[] = [
  { when: "the same entry is the same booking", known: [known("a", 5)], found: [found("a", 9)], kept: { a: "a" } },
  { when: "an absent one that lies ahead vanishes", known: [known("a", 5)], found: [], vanished: ["a"] },
  { when: "what has begun never vanishes", known: [known("a", -1), known("b", 0)], found: [] },
  { when: "what lies beyond the horizon never vanishes", known: [known("a", 401)], found: [] },
  { when: "a cancelled one does not vanish again", known: [known("a", 5, { cancelledAt: NOW })], found: [] },
  {
    when: "one that comes back is itself again",
    known: [known("a", 5, { cancelledAt: NOW })],
    found: [found("a", 6)],
    kept: { a: "a" },
  },
  {
    when: "deleted and made anew within 60 days it is one that moved",
    known: [known("a", 5)],
    found: [found("n", 65)],
    kept: { a: "n" },
  },
  {
    when: "beyond 60 days it is another",
    known: [known("a", 5)],
    found: [found("n", 66)],
    added: { n: "n" },
    vanished: ["a"],
  },
  {
    when: "another client's is another",
    known: [known("a", 5)],
    found: [found("n", 6, "c2")],
    added: { n: "n" },
    vanished: ["a"],
  },
  {
    when: "another service's is another",
    known: [known("a", 5, { service: "Toner" })],
    found: [found("n", 6)],
    added: { n: "n" },
    vanished: ["a"],
  },
  {
    when: "with two successors the desk is asked",
    known: [known("a", 5)],
    found: [found("n", 6), found("m", 7)],
    added: { n: "n", m: "m" },
    vanished: ["a"],
    unclear: ["a"],
  },
  {
    when: "with two origins the desk is asked",
    known: [known("a", 5), known("b", 8)],
    found: [found("n", 6)],
    added: { n: "n" },
    vanished: ["a", "b"],
    unclear: ["a", "b"],
  },
  {
    when: "a far booking of hers is no second candidate",
    known: [known("a", 5)],
    found: [found("n", 7), found("far", 200)],
    kept: { a: "n" },
    added: { far: "far" },
  },
  {
    when: "after it left the first diary it is the same in another chair",
    known: [known("a", 5, { diary: "other", cancelledAt: NOW })],
    found: [found("a", 5)],
    kept: { a: "a" },
  },
  {
    when: "in two diaries at once it is two, the later prefixed by its diary",
    known: [known("a", 5, { diary: "other" })],
    found: [found("a", 5)],
    added: { "main/a": "a" },
  },
  {
    when: "a prefixed identity is found again by its entry",
    known: [known("a", 5, { diary: "other" }), known("main/a", 5, { key: "a" })],
    found: [found("a", 6)],
    kept: { "main/a": "a" },
  },
  {
    when: "what moved under a new entry stays itself when read again",
    known: [known("a", 5, { key: "n" })],
    found: [found("n", 5)],
    kept: { a: "n" },
  },
  { when: "another diary's bookings are left alone", known: [known("a", 5, { diary: "other" })], found: [] },
];

const byKey = (owned: readonly { uid: string; owned: OwnedBooking }[]): Record<string, string> =>
  Object.fromEntries(owned.map(({ uid, owned: { found: entry } }) => [uid, entry.key]));

test.each(TABLE)("$when", ({ known: before, found: now, kept = {}, added = {}, vanished = [], unclear = [] }) => {
  const matches = matchBookings("main", before, now, NOW, HORIZON);
  expect(byKey(matches.kept)).toEqual(kept);
  expect(byKey(matches.added)).toEqual(added);
  expect([...matches.vanished].sort()).toEqual([...vanished].sort());
  expect(matches.unclear.map(({ uid }) => uid).sort()).toEqual([...unclear].sort());
});

const person = (name: string, email: string | null = null, phone: string | null = null) => ({ name, email, phone });

test.each([
  [
    "name and address agree, case and accents aside",
    person("Zoë Ashe", "zoe@example.com"),
    person("ZOE  ASHE", "Zoe@Example.com"),
    true,
  ],
  [
    "name and telephone agree, however written",
    person("Mara Q", null, "+44 1632 960155"),
    person("Mara Q", "m@example.com", "01632 960 155"),
    true,
  ],
  ["neither has an address", person("Mara Q"), person("mara q"), true],
  ["one has an address and the other none", person("Mara Q", "m@example.com"), person("Mara Q"), false],
  ["the other way round", person("Mara Q"), person("Mara Q", "m@example.com"), false],
  ["the addresses differ", person("Mara Q", "m@example.com"), person("Mara Q", "other@example.com"), false],
  [
    "the address agrees and the name does not",
    person("Mara Q", "home@example.com"),
    person("Ida Q", "home@example.com"),
    false,
  ],
])("two entries are one client only if the name and an address agree: %s", (_when, first, second, isSame) => {
  const people = new PeopleIndex([{ ...first, id: "c1" }]);
  expect(people.find(second)?.id === "c1").toBe(isSame);
});
