/**
 * What a person has said of an entry, kept for that entry and for those like it. Rules of this project, no source; everyone
 * named is invented.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compileAnswers, type EntryAnswer, printOfAnswers } from "../../src/diary/answers.ts";
import { findBookings } from "../../src/diary/findBookings.ts";
import { type GivenAnswer, makeAnswer } from "../../src/diary/makeAnswer.ts";
import { compileSorting, type Sorting, sortEntry } from "../../src/diary/sortEntry.ts";
import type { Entry, Person, Sorted } from "../../src/diary/types.ts";
import { settingsSchema } from "../../src/settings.ts";
import { Zone } from "../../src/time/zone.ts";

const TEN = Date.UTC(2026, 11, 11, 10) / 1000;
const DAY = 86_400;
const sortingOf = (more: object = {}) =>
  compileSorting(
    settingsSchema.parse({
      name: "Juniper Lane",
      zone: "Europe/London",
      tests: [{ route: "in-salon", protocol: "salon-48h" }],
      ...more,
    }),
  );
const DEFAULTS = sortingOf();

const entry = (summary: string, more: Partial<Entry> = {}): Entry => ({
  key: more.uid ?? "one",
  uid: "one",
  recurrenceId: null,
  start: TEN,
  date: null,
  end: null,
  summary,
  description: "",
  location: "",
  attendees: [],
  cancelled: false,
  ...more,
});
const person = (name: string, email: string | null = null): Person => ({ name, email, phone: null });
const given = (as: GivenAnswer["as"], client?: string): GivenAnswer => ({
  as,
  service: null,
  client: client === undefined ? null : person(client),
});

interface Scene {
  readonly sorting?: Sorting;
  readonly beside?: readonly Entry[];
  readonly clients?: readonly string[];
  readonly diary?: string;
  readonly at?: number;
}
const answerTo = (of: Entry, what: GivenAnswer, scene: Scene = {}): EntryAnswer => {
  const { sorting = DEFAULTS, beside = [], clients = [], diary = "main", at = TEN - DAY } = scene;
  const all = [of, ...beside].map((each) => ({ entry: each, sorted: sortEntry(each, sorting) }));
  return makeAnswer(of, what, { id: `${diary}/${of.key}`, diary, first: at, at, beside: all, clients }, sorting);
};
const sortBy = (each: Entry, answers: readonly EntryAnswer[], sorting = DEFAULTS, diary = "main"): Sorted =>
  sortEntry(each, sorting, compileAnswers(answers, diary));
/** `booking of Ann Brill`, `not-colour`, `no-match` …; an answer's work is marked by a star, that of a like one by two. */
const said = (sorted: Sorted): string => {
  if (sorted.kind === "unsorted") return sorted.why.code;
  const mark = sorted.answered === undefined ? "" : sorted.answered.isLike ? "**" : "*";
  return sorted.kind === "not-colour" ? `not-colour${mark}` : `${sorted.kind} of ${sorted.client.name}${mark}`;
};
const other = (summary: string, more: Partial<Entry> = {}): Entry => entry(summary, { uid: "two", ...more });
const guest = (name: string, email: string | null = null): Partial<Entry> => ({ attendees: [person(name, email)] });

const GLOW = entry("Mystery Glow - Ann Brill");

describe("the entry that was answered", () => {
  const glow = answerTo(GLOW, given("booking", "Ann Brill"));

  test("is what the person said, whose she said, for the only service there is", () => {
    expect(sortBy(GLOW, [glow])).toEqual({
      kind: "booking",
      service: "Colour",
      client: person("Ann Brill"),
      answered: { answer: "main/one", isLike: false },
    });
  });

  test("stays so when it moves, is described anew, ends otherwise or is written otherwise", () => {
    for (const more of [
      { start: TEN + 9 * DAY },
      { description: "tel:01632 960004" },
      { end: TEN + 7_200 },
      { summary: "MYSTERY GLOW – ann  brill" },
    ]) {
      expect(said(sortBy({ ...GLOW, ...more }, [glow]))).toBe("booking of Ann Brill*");
    }
  });

  test("is asked about again when its title has become another that no words know", () => {
    expect(said(sortBy({ ...GLOW, summary: "Ann Brill, something else" }, [glow]))).toBe("no-match");
    expect(said(sortBy({ ...GLOW, summary: "" }, [glow]))).toBe("no-words");
  });

  test("is never a booking once it is all-day, cancelled, or its service is gone", () => {
    expect(said(sortBy({ ...GLOW, start: null, date: 20_798 }, [glow]))).toBe("all-day");
    expect(said(sortBy({ ...GLOW, cancelled: true }, [glow]))).toBe("not-colour");
    const others = sortingOf({ services: [{ name: "Balayage", words: ["balayage*"] }] });
    expect(said(sortBy(GLOW, [glow], others))).toBe("no-match");
  });

  test("in another diary is another entry, whatever its UID and title", () => {
    const tint = entry("Tint");
    const hers = answerTo(tint, given("booking", "Ann Brill"));
    expect(said(sortBy(tint, [hers], DEFAULTS, "main"))).toBe("booking of Ann Brill*");
    expect(said(sortBy(tint, [hers], DEFAULTS, "chair 2"))).toBe("no-name");
  });

  test("takes the service told, and an address from either the answer or the entry", () => {
    const sorting = sortingOf({
      services: [
        { name: "Tint", words: ["tint*"] },
        { name: "Gloss", words: ["gloss*"] },
      ],
    });
    const tint = entry("Tint", { ...guest("", "ann@post.example"), description: "tel:01632 960005" });
    const answer = answerTo(tint, { as: "booking", service: "Gloss", client: person("Ann Brill") }, { sorting });
    expect(sortBy(tint, [answer], sorting)).toMatchObject({
      service: "Gloss",
      client: { name: "Ann Brill", email: "ann@post.example", phone: "01632 960005" },
    });
  });
});

describe("an answer of not-colour never hides a colour", () => {
  const answered = answerTo(GLOW, given("not-colour", "Ann Brill"));
  test("holds for the entry as it was", () => {
    expect(said(sortBy(GLOW, [answered]))).toBe("not-colour*");
  });

  test.each([
    ["Mystery Glow tint - Ann Brill", "booking of Ann Brill"],
    ["Tint - Ann Brill", "booking of Ann Brill"],
    ["Mystery Glow", "not-colour**"],
    ["Ann Brill", "no-match"],
    ["Mystery Glow Deluxe - Ann Brill", "no-match"],
    ["Mystery Glow - patch test - Ann Brill", "test of Ann Brill"],
  ])("and not for the same entry as %s: %s", (summary, what) => {
    expect(said(sortBy({ ...GLOW, summary }, [answered]))).toBe(what);
  });

  test("words that the salon has learned since beat it", () => {
    const learned = sortingOf({ services: [{ name: "Glow", words: ["mystery glow"] }] });
    expect(said(sortBy(GLOW, [answered], learned))).toBe("booking of Ann Brill");
    const tested = sortingOf({ testWords: ["mystery glow"] });
    expect(said(sortBy(GLOW, [answered], tested))).toBe("test of Ann Brill");
  });

  test("said in sight of a colour word it holds for that very title alone, and for nothing else", () => {
    const rep = entry("Tint supplier - the rep");
    expect(said(sortBy(rep, []))).toBe("booking of the rep");
    const answer = answerTo(rep, given("not-colour"));
    expect(said(sortBy(rep, [answer]))).toBe("not-colour*");
    expect(answer.phrase).toBe("");
    expect(said(sortBy({ ...rep, summary: "Tint - Mia Hart" }, [answer]))).toBe("booking of Mia Hart");
    expect(said(sortBy(other("Tint supplier - the rep"), [answer]))).toBe("booking of the rep");
  });
});

describe("a colour without a name", () => {
  const tint = entry("Tint", { recurrenceId: "2026-12-11T10:00:00Z", key: "one/2026-12-11T10:00:00Z" });
  const later = {
    ...tint,
    recurrenceId: "2026-12-18T10:00:00Z",
    key: "one/2026-12-18T10:00:00Z",
    start: TEN + 7 * DAY,
  };
  const hers = answerTo(tint, given("booking", "Ann Brill"));

  test("is the client's throughout its series, and no other entry's", () => {
    expect(said(sortBy(later, [hers]))).toBe("booking of Ann Brill*");
    expect(said(sortBy(other("Tint"), [hers]))).toBe("no-name");
    expect(hers.phrase).toBe("");
  });

  test("stays hers under other words of colour, and not where the title has room for a name", () => {
    expect(said(sortBy({ ...tint, summary: "Root tint & toner" }, [hers]))).toBe("booking of Ann Brill*");
    expect(said(sortBy({ ...tint, summary: "Tint (Bea instead)" }, [hers]))).toBe("no-name");
    expect(said(sortBy({ ...tint, summary: "Tint - Bea Holm" }, [hers]))).toBe("booking of Bea Holm");
    expect(said(sortBy({ ...tint, summary: "Cut" }, [hers]))).toBe("not-colour");
  });

  test("is whose the diary says once it names somebody else", () => {
    expect(said(sortBy({ ...later, ...guest("Bea Holm") }, [hers]))).toBe("booking of Bea Holm*");
    expect(said(sortBy({ ...later, ...guest("ann brill") }, [hers]))).toBe("booking of Ann Brill*");
  });

  test("is corrected where the entry names the one who booked for her", () => {
    const booked = { ...tint, ...guest("Mum Brill") };
    const answer = answerTo(booked, given("booking", "Ann Brill"));
    expect(said(sortBy({ ...later, ...guest("Mum Brill") }, [answer]))).toBe("booking of Ann Brill*");
    expect(said(sortBy({ ...later, ...guest("Bea Holm") }, [answer]))).toBe("booking of Bea Holm*");
  });

  test("of a series: a later answer to one appointment stays with that one", () => {
    const one = answerTo(later, given("booking", "Bea Holm"), { at: TEN });
    const third = { ...later, key: "one/2026-12-25T10:00:00Z", recurrenceId: "2026-12-25T10:00:00Z" };
    expect([tint, later, third].map((each) => said(sortBy(each, [one, hers])))).toEqual([
      "booking of Ann Brill*",
      "booking of Bea Holm*",
      "booking of Ann Brill*",
    ]);
  });

  test("under a UID that the file gives to several entries is hers at that time alone", () => {
    const first = entry("Tint");
    const second = entry("Tint", { key: "one#2", start: TEN + DAY });
    const answer = answerTo(first, given("booking", "Ann Brill"), { beside: [second] });
    expect(said(sortBy(first, [answer]))).toBe("booking of Ann Brill*");
    expect(said(sortBy(second, [answer]))).toBe("no-name");
    // The numbers hang on the file's order: here it has turned round.
    const turned = [
      { ...first, start: second.start },
      { ...second, start: first.start },
    ];
    expect(turned.map((each) => said(sortBy(each, [answer])))).toEqual(["no-name", "booking of Ann Brill*"]);
  });
});

describe("others like it", () => {
  const glow = answerTo(GLOW, given("booking", "Ann Brill"));
  test.each<[string, Partial<Entry>, string]>([
    ["Mystery Glow - Bea Holm", {}, "booking of Bea Holm**"],
    ["mystery GLÓW – Bea Holm", {}, "booking of Bea Holm**"],
    ["Bea Holm - Mystery Glow", {}, "booking of Bea Holm**"],
    ["Mystery Glow", guest("Bea Holm", "bea@post.example"), "booking of Bea Holm**"],
    ["Mystery Glow Bea Holm", guest("Bea Holm"), "booking of Bea Holm**"],
    ["Mystery Glow", {}, "no-name"],
    ["Mystery Glow - 2", {}, "no-match"],
    ["Mystery Glow Deluxe - Bea Holm", {}, "no-match"],
    ["Mystery Glow - Deluxe - Bea Holm", {}, "no-match"],
    ["Glow - Bea Holm", {}, "no-match"],
    ["Mystery Glow and cut - Bea Holm", {}, "not-colour"],
    ["Mystery Glow - patch test - Bea Holm", {}, "test of Bea Holm"],
    ["Mystery Glow - Bea Holm", { start: null, date: 20_798 }, "all-day"],
    ["Mystery Glow - Bea Holm", { cancelled: true }, "not-colour"],
  ])("%s %o: %s", (summary, more, what) => {
    expect(said(sortBy(other(summary, more), [glow]))).toBe(what);
  });

  test("take their own address, and hold in every diary of the salon", () => {
    const hers = other("Mystery Glow", guest("Bea Holm", "bea@post.example"));
    expect(sortBy(hers, [glow], DEFAULTS, "chair 2")).toEqual({
      kind: "booking",
      service: "Colour",
      client: person("Bea Holm", "bea@post.example"),
      answered: { answer: "main/one", isLike: true },
    });
  });

  test.each([
    ["Mystery Glow - Ann", "mystery glow"],
    ["Mystery Glow - Ann B.", "mystery glow"],
    ["A. Brill - Mystery Glow", "mystery glow"],
    ["Mystery Glow - Brill, Ann", "mystery glow"],
    ["Mystery Glow - A. B.", "mystery glow a b"],
    ["Mystery Glow - Annie", "mystery glow annie"],
    ["Mystery Glow - Ann Holm", ""],
  ])("%s is of Ann Brill where a person says so, and its phrase is %s", (summary, phrase) => {
    const short = answerTo(entry(summary), given("booking", "Ann Brill"));
    expect(short.phrase).toBe(phrase);
    const isLike = phrase === "mystery glow";
    expect(said(sortBy(other("Mystery Glow - Bea"), [short]))).toBe(isLike ? "booking of Bea**" : "no-match");
  });

  test("staff are no clients in them either", () => {
    const sorting = sortingOf({ staff: ["Nell Gray"] });
    expect(said(sortBy(other("Mystery Glow - Nell Gray"), [glow], sorting))).toBe("no-match");
    expect(said(sortBy(other("Mystery Glow", guest("Nell Gray")), [glow], sorting))).toBe("no-name");
  });

  test("a skin test by another word, and a title that speaks of both", () => {
    const dab = answerTo(entry("Elbow dab - Ann Brill"), given("test", "Ann Brill"));
    expect(said(sortBy(other("Elbow dab - Bea Holm"), [dab]))).toBe("test of Bea Holm**");
    const both = answerTo(entry("Tint & skin test - Ann Brill"), given("test"));
    expect(said(sortBy(other("Tint & skin test - Bea Holm"), [both]))).toBe("test of Bea Holm**");
    const hidden = answerTo(entry("Tint & skin test - Ann Brill"), given("not-colour", "Ann Brill"));
    expect(said(sortBy(other("Tint & skin test - Bea Holm"), [hidden]))).toBe("test-and-colour");
  });

  test("the salon's words are never overridden by likeness", () => {
    const perm = answerTo(entry("Perm - Ann Brill"), given("booking", "Ann Brill"));
    expect(said(sortBy(entry("Perm - Ann Brill"), [perm]))).toBe("booking of Ann Brill*");
    expect(said(sortBy(other("Perm - Bea Holm"), [perm]))).toBe("not-colour");
    const dropped = sortingOf({ notColour: ["cut*"] });
    expect(said(sortBy(other("Perm - Bea Holm"), [perm], dropped))).toBe("no-match");
  });

  test.each(["Busy", "Appointment", "BOOKED!", "12", "", "...", "Busy - Ann Brill"])(
    "an answer to “%s” is of that entry alone",
    (summary) => {
      const answer = answerTo(entry(summary), given("booking", "Ann Brill"));
      expect(answer.phrase).toBe("");
      expect(said(sortBy(entry(summary), [answer]))).toBe("booking of Ann Brill*");
      expect(said(sortBy(other(summary, guest("Bea Holm")), [answer]))).toBe("no-match");
    },
  );

  test("a name alone makes nothing like it", () => {
    for (const what of [given("booking", "Mia Hart"), given("not-colour"), given("not-colour", "Mia Hart")]) {
      const answer = answerTo(entry("Mia Hart"), what);
      expect(answer.phrase).toBe("");
      expect(said(sortBy(other("Mia Hart"), [answer]))).toBe("no-match");
    }
    expect(answerTo(entry("Mia"), given("booking", "Mia Hart")).phrase).toBe("");
    expect(answerTo(entry("Mia new"), given("booking", "Mia Hart")).phrase).toBe("");
    expect(
      answerTo(entry("Mia"), given("not-colour"), { clients: ["Mia Hart"], beside: [other("Tint - Al Reed")] }).phrase,
    ).toBe("");
  });
});

describe("not-colour, and entries like it", () => {
  const lamination = entry("Brow lamination - Ann Brill");
  const habit = [other("Tint - Mia Hart"), other("Toner - Al Reed", { uid: "three" })];

  test.each<[string, Scene, GivenAnswer, string]>([
    ["the person names the client", {}, given("not-colour", "Ann Brill"), "brow lamination"],
    ["she is a client already", { clients: ["Ann Brill"] }, given("not-colour"), "brow lamination"],
    [
      "other entries here name her",
      { beside: [other("Cut", guest("Ann Brill"))] },
      given("not-colour"),
      "brow lamination",
    ],
    ["titles here name clients so", { beside: habit }, given("not-colour"), "brow lamination"],
    ["nothing says which part is the name", {}, given("not-colour"), ""],
    [
      "titles here name clients in two ways",
      { beside: [...habit, other("Bo Larch - Tint", { uid: "four" })] },
      given("not-colour"),
      "brow lamination ann brill",
    ],
  ])("where %s", (_, scene, what, phrase) => {
    expect(answerTo(lamination, what, scene).phrase).toBe(phrase);
  });

  test.each<[string, Partial<Entry>, string]>([
    ["Brow lamination - Bea Holm", {}, "not-colour**"],
    ["Brow lamination", guest("Bea Holm"), "not-colour**"],
    ["Brow lamination", {}, "not-colour**"],
    ["Brow lamination - colur", {}, "no-match"],
    ["Brow lamination - glow no 7", {}, "no-match"],
    ["Brow lamination - with a warm glow at the end", {}, "no-match"],
    ["Brow lamination and glow - Bea Holm", {}, "no-match"],
    ["Brow lamination - glow - Bea Holm", {}, "no-match"],
    ["Brow lamination - toner", {}, "booking of Brow lamination"],
    ["Brow lamination, tint - Bea Holm", {}, "booking of Bea Holm"],
    ["Ann Brill - Mystery Glow", {}, "no-match"],
    ["Ann Brill", {}, "no-match"],
  ])("%s %o: %s", (summary, more, what) => {
    const answer = answerTo(lamination, given("not-colour"), { beside: habit });
    expect(said(sortBy(other(summary, more), [answer]))).toBe(what);
  });

  test("a title that names nobody is like itself where appointments name their clients, else it might be a name", () => {
    const brunch = entry("Team brunch");
    expect(answerTo(brunch, given("not-colour"), { beside: habit }).phrase).toBe("team brunch");
    expect(answerTo(brunch, given("not-colour"), { beside: [other("Tint")] }).phrase).toBe("");
    expect(answerTo(brunch, given("not-colour")).phrase).toBe("");
  });

  test.each([
    ["Ann Brill", [], ""],
    ["ANN", [], ""],
    ["Stocktake", [], ""],
    ["染髪", [], ""],
    ["Team brunch", ["Ann Holm", "Mo Brill"], "team brunch"],
    ["Room 7", [], "room 7"],
    ["ann b", ["Ann Holm"], ""],
  ] as const)("%s alone is no phrase of not-colour where it may be a client's name: %o", (summary, clients, phrase) => {
    expect(answerTo(entry(summary), given("not-colour"), { beside: habit, clients }).phrase).toBe(phrase);
  });

  test.each([
    ["Brow Lamination", ["Ann Holm"], "brow lamination"],
    ["Ann Holm", ["Ann Holm"], ""],
    ["Ann Brill", ["Ann Holm"], ""],
  ] as const)("%s of another client is told from the names that the salon knows: %o", (summary, clients, phrase) => {
    expect(answerTo(entry(summary, guest("Cy Finch")), given("not-colour"), { clients }).phrase).toBe(phrase);
  });

  test.each([
    ["Appointment with Ann Brill", {}],
    ["Ann Brill (new client)", {}],
    ["Ann Brill and Nell Gray", {}],
    ["Online booking: Ann Brill w/ Nell, 45 mins", {}],
    ["Ann Brill at Juniper Lane", {}],
    ["Busy - Ann Brill", {}],
    ["10:30 - Ann Brill", {}],
  ])("%s does not say what it is, and so nothing is like it", (summary) => {
    const sorting = sortingOf({ staff: ["Nell Gray"] });
    const hers = { ...entry(summary), ...guest("Ann Brill") };
    for (const as of ["booking", "not-colour"] as const) {
      expect(answerTo(hers, given(as, "Ann Brill"), { sorting, beside: habit }).phrase).toBe("");
    }
    expect(said(sortBy(hers, [answerTo(hers, given("booking"), { sorting })], sorting))).toBe("booking of Ann Brill*");
  });

  test("a date like one that was answered is no longer asked about, unless it speaks of a colour", () => {
    const day = { start: null, date: 20_798 };
    const answer = answerTo(entry("Founders' day", day), given("not-colour"), { beside: habit });
    expect(said(sortBy(entry("Founders' day", day), [answer]))).toBe("not-colour*");
    expect(said(sortBy(other("Founders' day", day), [answer]))).toBe("not-colour**");
    expect(said(sortBy(other("Founders' day tint", day), [answer]))).toBe("all-day");
  });
});

describe("several answers", () => {
  const at = (uid: string, client: string, as: GivenAnswer["as"], seconds: number): EntryAnswer => {
    const of = entry(`Mystery Glow - ${client}`, { uid, key: uid });
    return answerTo(of, given(as, client), { at: TEN + seconds });
  };
  const fresh = other("Mystery Glow - Bea Holm", { uid: "new", key: "new" });
  test.each([
    ["not-colour", "booking", "booking of Bea Holm**"],
    ["booking", "not-colour", "no-match"],
    ["booking", "test", "no-match"],
    ["test", "not-colour", "no-match"],
    ["not-colour", "not-colour", "not-colour**"],
  ] as const)("%s, then %s: %s", (first, second, what) => {
    const answers = [at("a", "Ann Brill", first, 0), at("b", "Cy Finch", second, 60)];
    expect(said(sortBy(fresh, answers))).toBe(what);
    expect(said(sortBy(fresh, answers.toReversed()))).toBe(what);
  });

  test("are told from one another by a print that no order changes", () => {
    const answers = [at("a", "Ann Brill", "booking", 0), at("b", "Cy Finch", "test", 60)];
    const print = printOfAnswers(answers, "main");
    expect(printOfAnswers(answers.toReversed(), "main")).toBe(print);
    expect(printOfAnswers(answers, "chair 2")).toBe(print);
    expect(printOfAnswers(answers.slice(1), "main")).not.toBe(print);
    expect(printOfAnswers([], "main")).toBe("");
    const hers = answerTo(entry("Tint"), given("booking", "Ann Brill"));
    expect(printOfAnswers([hers], "main")).not.toBe("");
    expect(printOfAnswers([hers], "chair 2")).toBe("");
  });
});

test("a diary that hides names hides them still when a person has said whose an entry is", () => {
  const busy = [entry("Busy"), other("Busy")];
  const answer = answerTo(busy[0] as Entry, given("booking", "Ann Brill"), { beside: busy });
  const zone = Zone.named("Europe/London") as Zone;
  const found = findBookings(
    busy.map((each) => ({ entry: each, sorted: sortBy(each, [answer]) })),
    "main",
    zone,
  );
  expect([found.bookings.map(({ client }) => client.name), found.hidesNames]).toEqual([["Ann Brill"], true]);
});

test("no answer to another entry changes what the words say, makes up a client or hides a colour word", () => {
  const part = fc.constantFrom(
    "Mystery Glow",
    "Tint",
    "Cut",
    "Patch test",
    "Ann Brill",
    "Bea Holm",
    "Busy",
    "Brow",
    "7",
  );
  const parts = fc
    .array(part, { minLength: 1, maxLength: 3 })
    .chain((list) => fc.constantFrom(" - ", " ").map((between) => list.join(between)));
  const title = fc.oneof(
    parts,
    fc.constantFrom("Mystery Glow", "Mystery Glow - Ann Brill", "Mystery Glow - Bea Holm", "Mystery Glow - Tint"),
  );
  const people = fc.constantFrom<Partial<Entry>>(
    {},
    guest("Ann Brill"),
    guest("Bea Holm"),
    guest("", "x@post.example"),
  );
  const what = fc.record({
    as: fc.constantFrom<GivenAnswer["as"]>("booking", "test", "not-colour"),
    service: fc.constant(null),
    client: fc.constantFrom(null, person("Ann Brill"), person("Cy Finch")),
  });
  let touched = 0;
  fc.assert(
    fc.property(title, people, what, title, people, (first, hers, answer, second, theirs) => {
      const answered = answerTo(entry(first, hers), answer, { beside: [other("Tint - Mia Hart", { uid: "three" })] });
      const them = other(second, theirs);
      const before = sortBy(them, []);
      const after = sortBy(them, [answered]);
      if (before.kind !== "unsorted") expect(after).toEqual(before);
      if (after.kind === "not-colour" && after.answered) expect(second).not.toMatch(/tint|test/i);
      if (after.kind === "booking" || after.kind === "test") {
        const names = [second, ...them.attendees.map(({ name }) => name)].join("\n");
        expect(names).toContain(after.client.name);
        if (after.answered) touched++;
      }
    }),
    { numRuns: 4_000, seed: 7 },
  );
  expect(touched).toBeGreaterThan(100);
});
