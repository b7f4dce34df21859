/**
 * Words, templates and hints where the writing is unusual or hostile. What folds together is that of Unicode 15 (UAX 15,
 * NFKD; CaseFolding.txt); the salons and their clients are invented.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compileWords, findWord, foldWords, withoutWords } from "../../src/diary/compileWords.ts";
import { nearestService, nearWordsOf } from "../../src/diary/nearestService.ts";
import { compileSorting, sortEntry } from "../../src/diary/sortEntry.ts";
import type { Entry, Person } from "../../src/diary/types.ts";
import { indexWords, wordsIn } from "../../src/diary/wordIndex.ts";
import { settingsSchema } from "../../src/settings.ts";

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
  key: "a",
  uid: "a",
  recurrenceId: null,
  start: 1_800_000_000,
  date: null,
  end: null,
  summary,
  description: "",
  location: "",
  attendees: [],
  cancelled: false,
  ...more,
});
const codeOf = (summary: string, sorting = DEFAULTS, more: Partial<Entry> = {}): string => {
  const sorted = sortEntry(entry(summary, more), sorting);
  return sorted.kind === "unsorted" ? sorted.why.code : sorted.kind;
};
const clientOf = (summary: string, sorting = DEFAULTS, more: Partial<Entry> = {}): Person | string => {
  const sorted = sortEntry(entry(summary, more), sorting);
  return sorted.kind === "booking" || sorted.kind === "test" ? sorted.client : codeOf(summary, sorting, more);
};

describe("one word however it is written", () => {
  test.each([
    ["ＴＩＮＴ - Mia Hart", "full-width letters"],
    ["𝐓𝐢𝐧𝐭 - Mia Hart", "mathematical letters"],
    ["Tínt - Mia Hart", "an accent in one character"],
    ["Ti\u0301nt - Mia Hart", "an accent of its own"],
    ["TİNT - Mia Hart", "a Turkish capital İ"],
    ["tınt - Mia Hart", "a Turkish small ı"],
    ["ti\u00adnt - Mia Hart", "a soft hyphen inside"],
    ["ti\u200dnt - Mia Hart", "a joiner inside"],
    ["💇‍♀️Tint✨ - Mia Hart", "emoji against it"],
    ["\u200fTint\u200f - Mia Hart", "marks of direction around it"],
    ["\tTint\u00a0 - Mia Hart", "blanks of other kinds"],
    ["(tint) - Mia Hart", "brackets"],
    ["TINT! - Mia Hart", "a mark behind it"],
  ])("%s: %s", (summary) => {
    expect(codeOf(summary)).toBe("booking");
  });

  test.each([
    ["STRASSENFARBE - Mia Hart", "Straßenfarbe"],
    ["straßenfarbe - Mia Hart", "STRASSENFARBE"],
    ["צביעה - Mia Hart", "צביעה"],
    ["צְבִיעָה - Mia Hart", "צביעה"],
    ["染髪 - Mia Hart", "染髪"],
    ["ΧΡΏΜΑΣ - Mia Hart", "χρώμας"],
    ["coloração - Mia Hart", "coloracao"],
    ["КРАШЕНИЕ - Mia Hart", "крашение"],
  ])("%s is found by %s", (summary, word) => {
    expect(codeOf(summary, sortingOf({ services: [{ name: "Colour", words: [word] }] }))).toBe("booking");
  });

  test.each(["Stint", "tin", "Tintin's", "ti nt", "ti-nt", "hint"])("%s is not the whole word tint", (text) => {
    const sorting = sortingOf({ services: [{ name: "Colour", words: ["tint"] }] });
    expect(codeOf(`${text} - Mia Hart`, sorting)).toBe("no-match");
  });

  test("a star takes any ending, in any script, and only at the end of the word", () => {
    const sorting = sortingOf({ services: [{ name: "Colour", words: ["half head*", "tönung*"] }] });
    expect(codeOf("Half heads of foil - Mia Hart", sorting)).toBe("booking");
    expect(codeOf("Tönungswäsche - Mia Hart", sorting)).toBe("booking");
    expect(codeOf("Halfhead - Mia Hart", sorting)).toBe("no-match");
    expect(codeOf("Abtönung - Mia Hart", sorting)).toBe("no-match");
  });
});

describe("which word wins", () => {
  test.each([
    ["Cut, blow dry & tint - Mia Hart", "booking"],
    ["Perm and toner - Mia Hart", "booking"],
    ["Skin test, then cut - Mia Hart", "test"],
    ["Tint / patch test - Mia Hart", "test-and-colour"],
    ["Strand test - Mia Hart", "not-colour"],
    ["Mia Hart - glow", "no-match"],
  ])("%s: %s", (summary, code) => {
    expect(codeOf(summary)).toBe(code);
  });

  test("words are looked for in the summary alone", () => {
    expect(codeOf("Mia Hart", DEFAULTS, { description: "Full head tint", location: "Colour bar" })).toBe("no-match");
    expect(codeOf("Tint - Mia Hart", DEFAULTS, { description: "Cut, patch test" })).toBe("booking");
  });

  test("whatever is unsorted says what to do about it", () => {
    for (const [summary, more] of [
      ["Tint - Mia Hart", { start: null, date: 20_798 }],
      ["Tint and skin test - Mia Hart", {}],
      ["Tint", {}],
      ["Skin test", {}],
      ["Busy", {}],
      ["Mia Hart", {}],
    ] as const) {
      const sorted = sortEntry(entry(summary, more), DEFAULTS);
      expect(sorted.kind === "unsorted" && sorted.why.text).toMatch(/\. (Give|Say) .+\.$/);
    }
  });
});

describe("where a client is looked for by default", () => {
  const mia = { name: "Mia Hart", email: "mia@post.example", phone: null };
  test.each([
    ["Tint", { attendees: [mia] }, mia],
    ["Tint - Al Reed", { attendees: [mia] }, mia],
    ["Tint - Mia Hart", {}, { name: "Mia Hart", email: null, phone: null }],
    ["Mia Hart - Tint", {}, { name: "Mia Hart", email: null, phone: null }],
    ["Tint", { attendees: [{ ...mia, phone: "+441632960001" }] }, { ...mia, phone: "+441632960001" }],
    [
      "Tint - Mia Hart",
      { description: "Allergic to wool. TEL: +44 (0)1632 960-003." },
      { name: "Mia Hart", email: null, phone: "+44 (0)1632 960-003" },
    ],
  ])("%s", (summary, more, client) => {
    expect(clientOf(summary, DEFAULTS, more)).toEqual(client);
  });

  test("a summary without end is split nowhere and costs no more than its length", () => {
    const costs = (summary: string, clientFrom: readonly string[]): number => {
      const sorting = sortingOf({ clientFrom });
      const times = Array.from({ length: 5 }, () => {
        const began = performance.now();
        sortEntry(entry(summary), sorting);
        return performance.now() - began;
      });
      return Math.min(...times);
    };
    for (const [summary, clientFrom] of [
      [`tint ${"a".repeat(10_000)}`, ["{service}a{client}"]],
      ["tint ".repeat(2_000), ["{service} {client}", "{client} {service}"]],
      ["tint - ".repeat(1_400), ["{service} - {client}", "{client} - {service}"]],
      ["Mystery ".repeat(1_250), ["{service} - {client}"]],
      [" -".repeat(5_000), ["{service} - {client}"]],
      ["tint ".repeat(198), ["{service} {client}", "{client} {service}", "{service}i{client}", "{service}t{client}"]],
    ] as const) {
      expect(costs(summary, clientFrom)).toBeLessThan(50);
    }
  });
});

describe("the nearest service", () => {
  const words = nearWordsOf(sortingOf().services);
  test.each([
    ["Colur", "Colour"],
    ["Coluor", "Colour"],
    ["balyage", "Colour"],
    ["hilights", "Colour"],
    ["Mystery Glow", null],
    ["Mia Hart", null],
    ["", null],
  ])("of %s: %s", (summary, service) => {
    expect(nearestService(foldWords(summary), words)).toBe(service);
  });

  test("is the one with the fewest slips, and never hangs on the sieve by letters", () => {
    const letters = fc.string({ unit: fc.constantFrom("a", "b", "c", "d"), minLength: 1, maxLength: 9 });
    fc.assert(
      fc.property(letters, letters, (heard, stem) => {
        const near = nearWordsOf([{ name: "It", words: compileWords([stem]) }]);
        const allowed = Math.floor(stem.length / 3);
        expect(nearestService(heard, near)).toBe(slipsBetween(heard, stem) <= allowed ? "It" : null);
      }),
      { numRuns: 400 },
    );
  });
});

/** Optimal string alignment distance, straight from its recurrence. */
const slipsBetween = (one: string, other: string): number => {
  if (one === "" || other === "") return one.length + other.length;
  const [oneRest, otherRest] = [one.slice(1), other.slice(1)];
  const same = one[0] === other[0] ? 0 : 1;
  const choices = [slips(oneRest, other) + 1, slips(one, otherRest) + 1, slips(oneRest, otherRest) + same];
  if (one.length > 1 && other.length > 1 && one[0] === other[1] && one[1] === other[0]) {
    choices.push(slips(one.slice(2), other.slice(2)) + 1);
  }
  return Math.min(...choices);
};
const known = new Map<string, number>();
const slips = (one: string, other: string): number => {
  const key = `${one}|${other}`;
  const value = known.get(key) ?? slipsBetween(one, other);
  known.set(key, value);
  return value;
};

test("a text without a list of words holds none of them, however often they stood there", () => {
  const list = compileWords(["tint*", "half head", "cut"]);
  const word = fc.constantFrom("tint", "tinting", "half", "head", "cut", "cute", "mia");
  fc.assert(
    fc.property(fc.array(word, { maxLength: 12 }), (parts) => {
      const rest = withoutWords(parts.join(" "), [list[0] ?? { stem: "tint", anyEnding: true }]);
      expect(rest).toBe(parts.filter((part) => !part.startsWith("tint")).join(" "));
    }),
  );
  expect(withoutWords("mia half head cut cut tinting hart", list)).toBe("mia hart");
});

describe("words looked up by their first letters", () => {
  const part = fc.oneof(
    fc.string({ unit: fc.constantFrom("a", "b"), minLength: 1, maxLength: 2 }),
    fc.string({ unit: fc.constantFrom("a", "ß", "染"), minLength: 1, maxLength: 5 }),
  );
  const word = fc
    .tuple(fc.array(part, { minLength: 1, maxLength: 3 }), fc.boolean())
    .map(([parts, star]) => parts.join(" ") + (star ? "*" : ""));
  const text = fc.array(part, { minLength: 3, maxLength: 10 }).map((parts) => foldWords(parts.join(" ")));

  test("are those that are found by trying each, in the list's order, and leave the same text", () => {
    let found = 0;
    fc.assert(
      fc.property(fc.array(word, { minLength: 5, maxLength: 40 }), text, (words, of) => {
        const list = compileWords(words);
        const standing = wordsIn(of, indexWords(list));
        expect(standing).toEqual(list.filter((each) => findWord(of, each) !== undefined));
        expect(withoutWords(of, standing)).toBe(withoutWords(of, list));
        found += standing.length;
      }),
      { numRuns: 2_000, seed: 7 },
    );
    expect(found).toBeGreaterThan(1_000);
  });

  test("cost a long list no more than a short one", () => {
    const many = Array.from({ length: 200 }, (_, n) => `w${n}*`);
    const services = Array.from({ length: 100 }, (_, n) => ({
      name: `S${n}`,
      words: many.map((each) => `q${n}${each}`),
    }));
    const costOf = (sorting: ReturnType<typeof sortingOf>): number => {
      const times = Array.from({ length: 9 }, () => {
        const began = performance.now();
        for (let n = 0; n < 100; n++) sortEntry(entry(`Cut ${n} - Mia Hart`), sorting);
        return performance.now() - began;
      });
      return Math.min(...times);
    };
    // Trying each of the twenty thousand takes some hundred times as long as the defaults.
    expect(costOf(sortingOf({ services }))).toBeLessThan(10 * costOf(DEFAULTS) + 5);
  });
});
