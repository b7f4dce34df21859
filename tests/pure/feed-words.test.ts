import { describe, expect, test } from "vitest";
import { clientEvents } from "../../src/feed/clientEvents.ts";
import { emergencyNumber, emergencyWords, somethingShowsWords } from "../../src/feed/emergency.ts";
import { fill } from "../../src/feed/fill.ts";
import { enGB } from "../../src/feed/language/en-GB.ts";
import { enUS } from "../../src/feed/language/en-US.ts";
import { nextToDo, stepLines } from "../../src/feed/nextToDo.ts";
import { diaryNotice } from "../../src/feed/notices.ts";
import { salonEvents } from "../../src/feed/salonEvents.ts";
import type { Plan, Standing } from "../../src/plan/types.ts";
import { HOUR } from "../../src/time/instant.ts";
import { at, contextOf, fellOver, homeSteps, planOf, PUT_ON, salonSteps, setDone } from "./feed-plans.ts";

const STANDINGS: readonly Standing[] = ["on-track", "due", "late", "no-time", "ready", "stop", "past", "cancelled"];
const MOMENTS = ["2026-11-10T09:00:00Z", "2026-12-07T09:00:00Z", "2026-12-11T10:31:00Z"];
const CONTEXTS = [
  contextOf(),
  contextOf({ language: "en-US", country: "US" }),
  contextOf({ country: null, contact: {} }, null),
];

/** Plans of every standing, early, late and after the colour, by kit, in the salon and fallen over. */
const plans: readonly Plan[] = STANDINGS.flatMap((standing) =>
  MOMENTS.flatMap((asOf) => [
    planOf(standing, homeSteps(), { asOf: at(asOf) }),
    planOf(standing, setDone(homeSteps(true), "screening", "application", "removal"), { asOf: at(asOf) }),
    planOf(standing, salonSteps(), { asOf: at(asOf) }),
    { ...fellOver(), standing, asOf: at(asOf) },
  ]),
);
const clientContents = CONTEXTS.flatMap((context) => plans.flatMap((plan) => clientEvents(plan, context)));
const salonContents = CONTEXTS.flatMap((context) => plans.flatMap((plan) => salonEvents(plan, context)));

/** Every text of a language file with the path it stands under. */
const textsOf = (part: unknown, path = ""): readonly (readonly [string, string])[] =>
  typeof part === "string"
    ? [[path, part]]
    : typeof part === "object" && part !== null
      ? Object.entries(part).flatMap(([key, value]) => textsOf(value, `${path}.${key}`))
      : [];
const namesIn = (text: string): readonly string[] => [...text.matchAll(/\{\w+\}/g)].map(([name]) => name).sort();

describe("the fixed words", () => {
  test("stand letter for letter, with the number of the country", () => {
    expect(emergencyWords("GB")).toBe(
      "Trouble breathing, swelling of the face, lips or tongue, or feeling faint: call 999 now and say anaphylaxis. Lie down; sit up if breathing is hard. Do not stand or walk. Use your adrenaline pen if you have one. Do not wait for the salon.",
    );
    expect(emergencyWords(null)).toContain(": call your local emergency number now and say anaphylaxis.");
    expect(somethingShowsWords("01 234")).toBe(
      "Take the test off and wash the place with water. Do not colour your hair. This is saved; nobody may read it before the salon opens, so telephone 01 234 then. Ask a pharmacist or doctor.",
    );
    expect(somethingShowsWords(null)).toContain("so telephone the salon then.");
  });

  test("GB 999 (Anaphylaxis UK), EU 112 and AU 000 (published sources), US and CA 911 (from memory)", () => {
    const numbers = ["GB", "IE", "DE", "AU", "US", "CA", "ZZ", null].map((country) => emergencyNumber(country).number);
    expect(numbers).toEqual(["999", "112", "112", "000", "911", "911", null, null]);
    expect(emergencyNumber("US").source).toBe("from memory");
    expect(emergencyNumber("GB").source).toContain("Anaphylaxis UK");
  });

  test("every client's event holds them, called off or not, in both languages", () => {
    expect(clientContents.length).toBeGreaterThan(1_000);
    const fixed = CONTEXTS.map(({ settings }) => emergencyWords(settings.country));
    for (const { description, summary } of clientContents) {
      expect(
        fixed.some((words) => description.includes(words)),
        summary,
      ).toBe(true);
    }
  });
});

describe("language files", () => {
  const [british, american] = [textsOf(enGB), textsOf(enUS)];

  test("have the same texts, asking for the same names", () => {
    expect(american.map(([path]) => path)).toEqual(british.map(([path]) => path));
    expect(american.map(([path, text]) => [path, namesIn(text)])).not.toEqual([]);
    for (const [index, [path, text]] of british.entries()) {
      if (path === ".time.long") continue;
      expect(namesIn(american[index]?.[1] ?? ""), path).toEqual(namesIn(text));
    }
  });

  test("hold no empty text, no promise and no blame", () => {
    for (const [path, text] of [...british, ...american]) {
      expect(text.trim(), path).not.toBe("");
      expect(text, path).not.toMatch(/\bsafe|\bmissed\b|\bguarantee/i);
    }
  });

  test("American English has no British spelling in it", () => {
    for (const [path, text] of american) expect(text, path).not.toMatch(/colour|cancelled/i);
  });

  test("a name that is not given is a fault, and braces in what is filled in stay", () => {
    expect(() => fill("{nobody}", {})).toThrow("{nobody}");
    expect(fill("{a} {b}", { a: "{b}", b: "$&" })).toBe("{b} $&");
  });
});

describe("every SUMMARY", () => {
  const summaries = [...clientContents, ...salonContents].map(({ summary }) => summary);

  test("holds no allergy word, no result, no blame and no promise", () => {
    for (const summary of summaries) {
      expect(summary).not.toMatch(/allerg|anaphyl|reaction|\bclear\b|positive|negative|not sure|missed|\bsafe/i);
    }
  });

  test("holds at most 255 characters and no name that was not filled in", () => {
    for (const summary of summaries) {
      expect(summary.length).toBeLessThanOrEqual(255);
      expect(summary).not.toMatch(/[{}]/);
    }
  });

  test("of the salon holds initials, and names only where the salon chose them", () => {
    for (const { summary, description } of salonContents) expect(summary + description).not.toMatch(/Mary|Tudor/);
    const named = salonEvents(planOf("on-track", homeSteps()), contextOf({ show: { clients: "names" } }));
    expect(named[1]?.summary).toBe("Post Marit Tunnock's kit by Fri 16:30");
  });

  test("is in plain words of the day and the clock", () => {
    // CP1 to CP6 (common practice, no source): the days and hours of one colour on Friday 10:30.
    const words = (plan: Plan, context = contextOf()): readonly string[] =>
      [...clientEvents(plan, context), ...salonEvents(plan, context)].map(({ summary }) => summary);
    expect(words(planOf("on-track", homeSteps()))).toEqual([
      "Answer the salon's questions by Thu 16:30",
      "Your skin test kit should come by Sat 18:00",
      "Put your skin test on by Sun 10:30",
      "Take the skin test off 48 hours after you put it on (Tue 10:30 if that was Sun 10:30)",
      "Look at your skin test 48 hours 30 minutes after you put it on (Tue 11:00 if that was Sun 10:30)",
      "Look at your skin test 96 hours after you put it on (Thu 10:30 if that was Sun 10:30)",
      "Your colour at Juniper Lane Colour Room, Fri 10:30",
      "Ask M.T. the screening questions by Thu 16:30",
      "Post M.T.'s kit by Fri 16:30",
      "M.T.'s kit should arrive by Sat 18:00",
      "M.T. puts the skin test on at home by Sun 10:30",
      "M.T. takes the skin test off 48 hours after it went on (Tue 10:30 if that was Sun 10:30)",
      "M.T. looks at the skin test 48 hours 30 minutes after it went on (Tue 11:00 if that was Sun 10:30)",
      "M.T. looks at the skin test 96 hours after it went on (Thu 10:30 if that was Sun 10:30)",
      "M.T.: record the result by Thu 17:30. Colour only if it is recorded and confirmed",
    ]);
    expect(words(planOf("on-track", salonSteps()))).toContain("Walk-in skin test expected: M.T., by Wed 10:30");
    expect(words(planOf("on-track", salonSteps()))).toContain("Come in for your skin test by Wed 10:30");
    const american = contextOf({ language: "en-US" });
    expect(words(planOf("on-track", homeSteps()), american)).toContain("Mail M.T.'s kit by Fri 4:30 PM");
  });
});

describe("descriptions", () => {
  const open = clientContents.filter(({ cancelled }) => !cancelled);

  test("of a client's steps say whose numbers win, and of looks that clear is no promise", () => {
    const steps = open.filter(({ kind }) => kind !== "colour");
    expect(steps.length).toBeGreaterThan(500);
    for (const { kind, description } of steps) {
      expect(description).toMatch(/own instructions, the salon's insurer and local rules win over any number/);
      if (kind === "reading") expect(description).toContain("does not mean that no reaction will happen");
    }
    const results = salonContents.filter(({ kind, cancelled }) => kind === "result" && !cancelled);
    expect(results.length).toBeGreaterThan(50);
    for (const { description } of results) expect(description).toContain("does not mean that no reaction will happen");
  });

  test("of a test say what to look for and what to do if something shows", () => {
    const tests = open.filter(({ kind }) => ["application", "removal", "reading"].includes(kind));
    expect(tests.length).toBeGreaterThan(200);
    for (const { description } of tests) {
      expect(description).toContain("redness, itching, burning");
      expect(description).toMatch(/If something shows, at any time: take the test off, wash the place with water/);
    }
  });

  test("give the rule with its source, the way to the salon and the page", () => {
    const [, , application] = clientEvents(planOf("on-track", homeSteps()), contextOf());
    expect(application?.description).toContain(
      "The rule behind this: 120 hours (home-kit-120h). Source: common practice, no source.",
    );
    expect(application?.description).toContain("020 7946 0000, hello@juniper.example, 3 Juniper Lane");
    expect(application?.description).toContain("Tell us here: https://count.example/c/k3y");
    expect(application?.description).toContain("Leave it on for 48 hours.");
  });

  test("never say the word that nothing here may promise", () => {
    const everything = [
      ...[...clientContents, ...salonContents].map(({ summary, description }) => summary + description),
      ...plans.flatMap((plan) =>
        CONTEXTS.flatMap((context) => [
          JSON.stringify(nextToDo(plan, context)),
          JSON.stringify(stepLines(plan, context)),
        ]),
      ),
      somethingShowsWords(null),
    ];
    for (const text of everything) expect(text).not.toMatch(/\bsafe/i);
  });
});

test("a notice of a diary names it, when it was last read, and every day until now", () => {
  const context = contextOf();
  const trouble = { diary: "main", kind: "unreadable", since: PUT_ON } as const;
  const notice = diaryNotice(trouble, PUT_ON + 50 * HOUR, context);
  expect(notice.summary).toBe("Diary main not read since Sun 6 Dec 2026, 10:30. The times below may be old");
  expect(notice.time).toEqual({ allDay: true, from: context.zone.dayAt(PUT_ON), to: context.zone.dayAt(PUT_ON) + 3 });
  const others = (["held", "never-read"] as const).map((kind) => diaryNotice({ ...trouble, kind }, PUT_ON, context));
  expect(new Set([notice, ...others].map(({ uid }) => uid)).size).toBe(1);
  expect(new Set([notice, ...others].map(({ summary }) => summary)).size).toBe(3);
});
