/**
 * What stays one booking when a diary changes more than a time: chairs, series, UIDs, the order of a file; and beside each
 * what must not become one. The project's own rules; nothing is looked up.
 */
import { expect, test } from "vitest";
import { type KnownBooking, matchBookings, NO_HINTS, type OwnedBooking } from "../../src/diary/identity.ts";
import { pairByShift } from "../../src/diary/pairByShift.ts";
import { DAY_SECONDS, formatInstant, parseInstant } from "../../src/time/instant.ts";

const NOW = parseInstant("2026-12-01T09:00:00Z") ?? 0;
const HORIZON = { from: NOW - 30 * DAY_SECONDS, to: NOW + 400 * DAY_SECONDS };
const OLD = NOW - 90 * DAY_SECONDS;
const LATER = NOW - 60;

const at = (inDays: number): number => NOW + Math.round(inDays * DAY_SECONDS);
/** The key of an occurrence. */
const of = (uid: string, inDays: number): string => `${uid}/${formatInstant(at(inDays))}`;

const known = (uid: string, inDays: number, more: Partial<KnownBooking> = {}): KnownBooking => ({
  uid,
  key: uid,
  diary: "A",
  client: "c1",
  service: "Colour",
  start: at(inDays),
  firstSeen: OLD,
  cancelledAt: null,
  ...more,
});
const found = (key: string, inDays: number, more: { client?: string; service?: string } = {}): OwnedBooking => ({
  client: more.client ?? "c1",
  found: {
    key,
    uid: key,
    recurrenceId: null,
    diary: "A",
    start: at(inDays),
    end: null,
    summary: "Root tint",
    service: more.service ?? "Colour",
    client: { name: "Mara Quillfeather", email: null, phone: null },
  },
});
/** A weekly series as it is known and as it is found; `by` in days. */
const knownSeries = (uid: string, from: number, count: number, more: Partial<KnownBooking> = {}) =>
  Array.from({ length: count }, (_, n) => known(of(uid, from + 7 * n), from + 7 * n, more));
const foundSeries = (uid: string, from: number, count: number, more: { client?: string } = {}) =>
  Array.from({ length: count }, (_, n) => found(of(uid, from + 7 * n), from + 7 * n, more));

interface Row {
  readonly when: string;
  readonly known: readonly KnownBooking[];
  readonly found: readonly OwnedBooking[];
  readonly recorded?: readonly string[];
  readonly stands?: readonly string[];
  /** Identity and the key that carries it, in any order. */
  readonly kept?: readonly (readonly [uid: string, key: string])[];
  readonly added?: readonly string[];
  readonly vanished?: readonly string[];
  readonly elsewhere?: readonly (readonly [uid: string, copy: string])[];
  readonly unclear?: readonly string[];
}

const copy = { uid: "B/a", key: "a", diary: "B", firstSeen: LATER };
const weeks = (from: number, count: number): number[] => Array.from({ length: count }, (_, n) => from + 7 * n);
const shifted = (uid: string, to: string, from: number, by: number, count: number) =>
  weeks(from, count).map((day) => [of(uid, day), of(to, day + by)] as const);

const CHAIRS: readonly Row[] = [
  {
    when: "a booking that another diary had before it left this one goes on there under its first identity",
    known: [known("a", 5), known("B/a", 6, copy)],
    found: [],
    elsewhere: [["a", "B/a"]],
  },
  {
    when: "so does every occurrence of a series",
    known: [
      ...knownSeries("s", 5, 3),
      ...knownSeries("s", 5, 3, { diary: "B", firstSeen: LATER }).map((each) => ({ ...each, uid: `B/${each.uid}` })),
    ],
    found: [],
    elsewhere: weeks(5, 3).map((day) => [of("s", day), `B/${of("s", day)}`] as const),
  },
  {
    when: "a copy of which something was told stays a booking of its own",
    known: [known("a", 5), known("B/a", 6, copy)],
    found: [],
    recorded: ["B/a"],
    vanished: ["a"],
  },
  {
    when: "a copy of another client stays hers",
    known: [known("a", 5), known("B/a", 6, { ...copy, client: "c2" })],
    found: [],
    vanished: ["a"],
  },
  {
    when: "where the copy is what goes, the first stays as it is",
    known: [known("a", 5, { diary: "B" }), known("A/a", 5, { key: "a", firstSeen: LATER })],
    found: [],
    vanished: ["A/a"],
  },
  {
    when: "as long as both diaries hold it, it is two",
    known: [known("a", 5), known("B/a", 6, copy)],
    found: [found("a", 5)],
    kept: [["a", "a"]],
  },
  {
    when: "the same key of another client in another diary is another booking",
    known: [known("a", 5, { diary: "B", cancelledAt: NOW })],
    found: [found("a", 5, { client: "c2" })],
    added: ["A/a"],
  },
  {
    when: "one that went away and came back to a chair that once had a copy is still the first",
    known: [
      known("a", 5, { diary: "B", cancelledAt: NOW }),
      known("A/a", 5, { key: "a", firstSeen: LATER, cancelledAt: LATER }),
    ],
    found: [found("a", 5)],
    kept: [["a", "a"]],
  },
  {
    when: "of two that were there at once, the one that left last is back",
    known: [
      known("a", 5, { diary: "B", cancelledAt: LATER }),
      known("A/a", 5, { key: "a", firstSeen: LATER, cancelledAt: NOW }),
    ],
    found: [found("a", 5)],
    kept: [["A/a", "a"]],
  },
];

const UIDS: readonly Row[] = [
  {
    when: "under new UIDs, each is the one of its client, service and start, however many there are",
    known: [known("a", 5), known("b", 9), known("c", 12, { client: "c2" })],
    found: [found("x", 12, { client: "c2" }), found("y", 9), found("z", 5)],
    kept: [
      ["a", "z"],
      ["b", "y"],
      ["c", "x"],
    ],
  },
  {
    when: "one that has begun is not made twice under another UID",
    known: [known("a", -3)],
    found: [found("x", -3)],
    kept: [["a", "x"]],
  },
  {
    when: "one that vanished for a while and comes back at its time under another UID is itself again",
    known: [known("a", 5, { cancelledAt: LATER })],
    found: [found("x", 5)],
    kept: [["a", "x"]],
  },
  {
    when: "another client's at the same time is not taken for it",
    known: [known("a", 5)],
    found: [found("x", 5, { client: "c2" })],
    added: ["x"],
    vanished: ["a"],
  },
  {
    when: "where entries are numbered anew, a number does not carry one client's booking to another",
    known: [known("1", 5), known("2", 9, { client: "c2" })],
    found: [found("1", 9, { client: "c2" }), found("2", 5)],
    kept: [
      ["1", "2"],
      ["2", "1"],
    ],
  },
  {
    when: "a name that was corrected stays with the booking, at its time or another",
    known: [known("a", 5), known("b", 9)],
    found: [found("a", 5, { client: "c2" }), found("b", 11, { client: "c3" })],
    kept: [
      ["a", "a"],
      ["b", "b"],
    ],
  },
  {
    when: "exact times come first: what is left has one candidate and has moved",
    known: [known("a", 5), known("b", 9)],
    found: [found("x", 5), found("y", 10)],
    kept: [
      ["a", "x"],
      ["b", "y"],
    ],
  },
  {
    when: "two of one client that went the same way are two that moved",
    known: [known("a", 5), known("b", 9)],
    found: [found("x", 6), found("y", 10)],
    kept: [
      ["a", "x"],
      ["b", "y"],
    ],
  },
  {
    when: "two that went different ways are for the desk",
    known: [known("a", 5), known("b", 9)],
    found: [found("x", 6), found("y", 12)],
    added: ["x", "y"],
    vanished: ["a", "b"],
    unclear: ["a", "b"],
  },
];

const SERIES: readonly Row[] = [
  {
    when: "three of which two went one way and one is gone are for the desk",
    known: [known("a", 5), known("b", 9), known("c", 20)],
    found: [found("x", 6), found("y", 10)],
    added: ["x", "y"],
    vanished: ["a", "b", "c"],
    unclear: ["a", "b", "c"],
  },
  {
    when: "a long way that would leave two others to the edge is not believed",
    known: [known("a", 1), known("b", 2)],
    found: [found("w", 3.5), found("x", 5), found("y", 40), found("z", 41)],
    added: ["w", "x", "y", "z"],
    vanished: ["a", "b"],
    unclear: ["a", "b"],
  },
  {
    when: "one occurrence between two new ones, as near to either, is for the desk",
    known: knownSeries("s", 10, 1),
    found: [...foundSeries("s", 8, 1), ...foundSeries("s", 12, 1)],
    added: [of("s", 8), of("s", 12)],
    vanished: [of("s", 10)],
    unclear: [of("s", 10)],
  },
  {
    when: "two series that became one under a new UID, an hour later, are paired in their order",
    known: [...knownSeries("s", 5, 2), ...knownSeries("t", 19, 2)],
    found: foundSeries("u", 5 + 1 / 24, 4),
    kept: [...shifted("s", "u", 5, 1 / 24, 2), ...shifted("t", "u", 19, 1 / 24, 2)],
  },
  {
    when: "the rest of a series moved under a new UID, while another booking of hers is gone for good",
    known: [...knownSeries("s", 5, 4), known("a", 13)],
    found: [...foundSeries("s", 5, 2), ...foundSeries("t", 20, 2)],
    kept: [...shifted("s", "s", 5, 0, 2), ...shifted("s", "t", 19, 1, 2)],
    vanished: ["a"],
  },
  {
    when: "a single entry that becomes a series while its name is corrected is its first occurrence",
    known: [known("a", 5)],
    found: foundSeries("a", 5, 2, { client: "c2" }),
    kept: [["a", of("a", 5)]],
    added: [of("a", 12)],
  },
  ...[1 / 24, -1 / 24, 1, -1, 3].map(
    (by): Row => ({
      when: `a weekly series that was moved by ${by * 24} hours keeps every identity`,
      known: knownSeries("s", 5, 8),
      found: foundSeries("s", 5 + by, 8),
      kept: shifted("s", "s", 5, by, 8),
    }),
  ),
  {
    when: "an hour of clock change in the middle does not part them",
    known: knownSeries("s", 5, 6),
    found: foundSeries("s", 6, 6).map((each, n) => (n < 3 ? each : found(each.found.key, 6 + 7 * n + 1 / 24))),
    kept: shifted("s", "s", 5, 1, 6),
  },
  {
    when: "at the horizon's edge one leaves and another comes",
    known: knownSeries("s", 5, 57),
    found: foundSeries("s", 4, 57),
    kept: shifted("s", "s", 5, -1, 57),
  },
  {
    when: "a last one that the shift took beyond the horizon does not stop the others, and does not vanish",
    known: [...knownSeries("s", 5, 56), known(of("s", 399.5), 399.5)],
    found: foundSeries("s", 6, 56),
    kept: shifted("s", "s", 5, 1, 56),
    vanished: [of("s", 399.5)],
  },
  {
    when: "a series that ends sooner and moved keeps those that are left",
    known: knownSeries("s", 5, 8),
    found: foundSeries("s", 6, 4),
    kept: shifted("s", "s", 5, 1, 4),
    vanished: weeks(33, 4).map((day) => of("s", day)),
  },
  {
    when: "occurrences that are past move to what is past, never to a day ahead",
    known: [...knownSeries("s", -9, 2), ...knownSeries("s", 5, 3)],
    found: [...foundSeries("s", -8, 2), ...foundSeries("s", 6, 3)],
    kept: [...shifted("s", "s", -9, 1, 2), ...shifted("s", "s", 5, 1, 3)],
  },
  {
    when: "a past occurrence that is no longer exported does not become one that was added",
    known: [...knownSeries("s", -9, 1), ...knownSeries("s", 5, 2)],
    found: [...foundSeries("s", 5, 2), found(of("s", 8), 8)],
    kept: shifted("s", "s", 5, 0, 2),
    added: [of("s", 8)],
  },
  {
    when: "the rest of a series under a new UID keeps its identities",
    known: knownSeries("s", 5, 6),
    found: [...foundSeries("s", 5, 3), ...foundSeries("t", 26, 3)],
    kept: [...shifted("s", "s", 5, 0, 3), ...shifted("s", "t", 26, 0, 3)],
  },
  {
    when: "the rest of a series under a new UID and at another hour too",
    known: knownSeries("s", 5, 6),
    found: [...foundSeries("s", 5, 3), ...foundSeries("t", 26 + 2 / 24, 3)],
    kept: [...shifted("s", "s", 5, 0, 3), ...shifted("s", "t", 26, 2 / 24, 3)],
  },
  {
    when: "a series of another client in its place is hers",
    known: knownSeries("s", 5, 3),
    found: foundSeries("s", 6, 3, { client: "c2" }),
    added: weeks(6, 3).map((day) => of("s", day)),
    vanished: weeks(5, 3).map((day) => of("s", day)),
  },
  {
    when: "a single entry that becomes a series is its first occurrence",
    known: [known("a", 5)],
    found: foundSeries("a", 5, 3),
    kept: [["a", of("a", 5)]],
    added: [of("a", 12), of("a", 19)],
  },
  {
    when: "a series that becomes a single entry again is that one",
    known: knownSeries("a", 5, 3),
    found: [found("a", 5)],
    kept: [[of("a", 5), "a"]],
    vanished: [of("a", 12), of("a", 19)],
  },
];

const FILES: readonly Row[] = [
  {
    when: "entries of one UID keep who they are when the file's order changes",
    known: [known("k", 5), known("k#2", 9, { client: "c2" })],
    found: [found("k", 9, { client: "c2" }), found("k#2", 5)],
    kept: [
      ["k", "k#2"],
      ["k#2", "k"],
    ],
  },
  {
    when: "one of them that moves is still hers",
    known: [known("k", 5), known("k#2", 9, { client: "c2" })],
    found: [found("k", 9, { client: "c2" }), found("k#2", 12)],
    kept: [
      ["k", "k#2"],
      ["k#2", "k"],
    ],
  },
  {
    when: "one of them that is gone is not the next one under its number",
    known: [known("k", 5), known("k#2", 9, { client: "c2" })],
    found: [found("k", 9, { client: "c2" })],
    kept: [["k#2", "k"]],
    vanished: ["k"],
  },
  {
    when: "a newcomer under a number that was somebody else's is new",
    known: [known("k", 5), known("k#2", 9, { client: "c2" })],
    found: [found("k", 9, { client: "c2" }), found("k#2", 30, { client: "c3" })],
    kept: [["k#2", "k"]],
    added: ["A/k#2"],
    vanished: ["k"],
  },
  {
    when: "of two of one client under one UID, the number tells which moved",
    known: [known("k", 5), known("k#2", 9)],
    found: [found("k", 6), found("k#2", 14)],
    kept: [
      ["k", "k"],
      ["k#2", "k#2"],
    ],
  },
  {
    when: "an entry without a UID, whose name comes of its content, is known by client and service when it moves",
    known: [known("without-uid-1", 5)],
    found: [found("without-uid-2", 6)],
    kept: [["without-uid-1", "without-uid-2"]],
  },
  {
    when: "a service put in front of a visit carries it on",
    known: [known("k1", 5)],
    found: [found("k0", 5 - 1 / 24, { service: "Lightening" })],
    kept: [["k1", "k0"]],
  },
  {
    when: "a visit that loses its first service is still that visit",
    known: [known("k1", 5)],
    found: [found("k2", 5 + 1 / 24, { service: "Toner" })],
    kept: [["k1", "k2"]],
  },
  {
    when: "another service the next day is another visit",
    known: [known("k1", 5)],
    found: [found("k2", 6, { service: "Toner" })],
    added: ["k2"],
    vanished: ["k1"],
  },
  {
    when: "another service of another client at that time is hers",
    known: [known("k1", 5)],
    found: [found("k2", 5, { service: "Toner", client: "c2" })],
    added: ["k2"],
    vanished: ["k1"],
  },
  {
    when: "two services in the place of one are no visit that can be told",
    known: [known("k1", 5)],
    found: [found("k2", 5 - 3 / 24, { service: "Toner" }), found("k3", 5 + 3 / 24, { service: "Gloss" })],
    added: ["k2", "k3"],
    vanished: ["k1"],
  },
  {
    when: "an entry that stands there and is not understood neither vanishes nor becomes a new one of hers",
    known: [known("a", 5)],
    found: [found("n", 7)],
    stands: ["a"],
    added: ["n"],
  },
];

const sorted = <Item>(items: Iterable<Item>): Item[] =>
  [...items].sort((one, other) => (JSON.stringify(one) < JSON.stringify(other) ? -1 : 1));

test.each([...CHAIRS, ...UIDS, ...SERIES, ...FILES])("$when", (row) => {
  const { recorded = [], stands = [], kept = [], added = [], vanished = [], elsewhere = [], unclear = [] } = row;
  const hints = {
    stillStands: (key: string) => stands.includes(key),
    isRecorded: (uid: string) => recorded.includes(uid),
  };
  // Neither the order in which bookings are stored nor that of a file decides anything.
  for (const turn of [<Item>(items: readonly Item[]) => items, <Item>(items: readonly Item[]) => items.toReversed()]) {
    const matches = matchBookings("A", turn(row.known), turn(row.found), NOW, HORIZON, hints);
    expect(sorted(matches.kept.map(({ uid, owned }) => [uid, owned.found.key]))).toEqual(sorted(kept));
    expect(sorted(matches.added.map(({ uid }) => uid))).toEqual(sorted(added));
    expect(sorted(matches.vanished)).toEqual(sorted(vanished));
    expect(sorted(matches.elsewhere.map(({ uid, copy: other }) => [uid, other]))).toEqual(sorted(elsewhere));
    expect(sorted(matches.unclear.map(({ uid }) => uid))).toEqual(sorted(unclear));
  }
});

test("one shift pairs a row over an hour of clock change, and tells what is left alone", () => {
  const window = { from: NOW, to: HORIZON.to };
  const days = [5, 12, 19, 26].map(at);
  const later = [6, 13, 20 + 1 / 24, 27 + 1 / 24].map(at);
  expect(pairByShift(days, later, window)?.pairs).toEqual([0, 1, 2, 3].map((n) => [n, n]));
  expect(pairByShift(days, later.slice(0, 2), window)).toMatchObject({
    pairs: [
      [0, 0],
      [1, 1],
    ],
    unexplained: 2,
  });
  expect(pairByShift([at(5)], [at(66)], window)).toBeUndefined();
});

test("what is unclear names each possible successor", () => {
  const { unclear } = matchBookings("A", [known("a", 5)], [found("n", 6), found("m", 7)], NOW, HORIZON, NO_HINTS);
  expect(unclear.map(({ uid, candidates }) => [uid, candidates.map((each) => each.found.key)])).toEqual([
    ["a", ["n", "m"]],
  ]);
});

/** Ten thousand bookings of a thousand clients, the worst ways of change; the bound is far above what any machine needs. */
const MANY = 10_000;
const many = (key: (n: number) => string, by: number): OwnedBooking[] =>
  Array.from({ length: MANY }, (_, n) => found(key(n), 1 + (n % 390) + n / MANY + by, { client: `c${n % 1_000}` }));
const manyKnown = many((n) => `u${n}`, 0).map(({ client, found: { key, start } }) => known(key, 0, { client, start }));

test.each([
  ["nothing changed", many((n) => `u${n}`, 0)],
  ["every UID is new", many((n) => `x${n}`, 0)],
  ["every UID is new and every time another", many((n) => `x${n}`, 1 / 24)],
  ["everything is gone", []],
  [
    "one client has everything, moved and renamed",
    many((n) => `x${n}`, 0.3).map((each) => ({ ...each, client: "c1" })),
  ],
])("ten thousand bookings are matched in time that grows with their number: %s", (_when, now) => {
  const began = performance.now();
  const matches = matchBookings("A", manyKnown, now, NOW, HORIZON, NO_HINTS);
  const took = performance.now() - began;
  expect(matches.kept.length + matches.added.length).toBe(now.length);
  expect(took).toBeLessThan(2_000);
});
