/** What is asked, against the published label; and what answers come to (counting.md 23, 24). */
import { describe, expect, test } from "vitest";
import { checkAnswers } from "../../src/plan/checkAnswers.ts";
import { consentWords, isOfLabel, judgeAnswers, questionsOf } from "../../src/plan/questions.ts";
import { ANSWERS, type Answer, type Question } from "../../src/plan/types.ts";
import { settingsOf } from "./feed-plans.ts";

/**
 * Regulation (EC) No 1223/2009, Annex III, hair dye warnings, as reported in English in the trade press on Directive
 * 2009/134/EC; the Annex itself was not read.
 */
const LABEL = [
  "This product is not intended for use on persons under the age of 16.",
  "you have a rash on your face or sensitive, irritated and damaged scalp,",
  "you have ever experienced any reaction after colouring your hair,",
  'you have experienced a reaction to a temporary "black henna" tattoo in the past.',
];

const usual = questionsOf(settingsOf());
const answers = (given: Readonly<Record<string, Answer>> = {}, of = usual): Readonly<Record<string, Answer>> =>
  Object.fromEntries(of.map(({ id }) => [id, given[id] ?? "no"]));
const judge = (given: Readonly<Record<string, Answer>>, of = usual) => judgeAnswers(of, answers(given, of), "en-GB");

describe("what is asked", () => {
  test("first the label's four warnings, in its order and in its own words of weight, each naming it as the source", () => {
    const words = [
      ["under", "16"],
      ["rash", "face", "sensitive", "irritated", "damaged", "scalp"],
      ["ever", "any", "reaction", "after", "colouring", "hair"],
      ["reaction", "temporary", "black", "henna", "tattoo"],
    ];
    for (const [index, wanted] of words.entries()) {
      for (const word of wanted) {
        expect(LABEL[index]).toContain(word);
        expect(usual[index]?.text, word).toContain(word);
      }
      expect(usual[index]?.source).toContain("Regulation (EC) No 1223/2009, Annex III");
      expect(usual[index]?.yes).toBe("do-not-colour");
      expect(isOfLabel(usual[index]?.id ?? "")).toBe(true);
    }
  });

  test("then what makes an earlier result old: a tattoo without reaction, colour elsewhere, another product, health", () => {
    expect(usual.slice(4).map(({ id, yes, ground }) => [id, yes, ground])).toEqual([
      ["tattoo", "test-needed", null],
      ["elsewhere", "test-needed", null],
      ["product", "test-needed", null],
      ["health", "test-needed", null],
    ]);
    for (const { source } of usual) expect(source).not.toBe("");
  });

  test("in American English where the salon speaks it, codes and sources unchanged", () => {
    const american = questionsOf(settingsOf({ language: "en-US" }));
    for (const { text } of american) expect(text).not.toMatch(/colour/i);
    expect(american.find(({ id }) => id === "past-reaction")?.text).toContain("coloring your hair");
    expect(american.map(({ yes, source }) => [yes, source])).toEqual(usual.map(({ yes, source }) => [yes, source]));
  });

  test("a salon's own list replaces the usual four and never the label's", () => {
    const own = questionsOf(
      settingsOf({
        questions: [
          { id: "wound", text: "A wound on your head?", yes: "do-not-colour" },
          { id: "scarf", text: "Do you wear a scarf?", yes: "test-needed", source: "our insurer" },
        ],
      }),
    );
    expect(own.map(({ id }) => id)).toEqual([
      "under-16",
      "scalp",
      "past-reaction",
      "tattoo-reaction",
      "wound",
      "scarf",
    ]);
    expect(own.slice(0, 4)).toEqual(usual.slice(0, 4));
    expect(own[4]).toMatchObject({ ground: "other", source: "the salon's own question, no source" });
    expect(own[5]).toMatchObject({ ground: null, source: "our insurer" });
  });

  test("the consent names the salon, whatever characters its name has, and that it can be withdrawn", () => {
    expect(consentWords(settingsOf({ name: "$& Hair" }))).toMatch(/^I agree that \$& Hair keeps .*withdraw/);
  });
});

describe("what answers come to", () => {
  test("no to everything is a pass", () => {
    expect(judge({})).toMatchObject({ outcome: "pass", grounds: [], why: { code: "pass" } });
  });

  test("every answer to every question alone: yes means what the question says, not-sure leaves it to a person", () => {
    for (const { id, yes, ground } of usual) {
      expect(judge({ [id]: "yes" })).toMatchObject({ outcome: yes, grounds: ground === null ? [] : [ground] });
      expect(judge({ [id]: "not-sure" })).toMatchObject({ outcome: null, why: { code: "person-decides" } });
    }
  });

  test("one yes to a ground stops whatever else is not sure, and a not-sure goes before a test", () => {
    for (const { id, ground } of usual) {
      const others = Object.fromEntries(usual.filter((each) => each.id !== id).map((each) => [each.id, "not-sure"]));
      expect(judge({ ...(others as Record<string, Answer>), [id]: "yes" }).outcome).toBe(
        ground === null ? null : "do-not-colour",
      );
    }
  });

  test("the grounds come once each, the one that reaches farthest last", () => {
    const told = judge({ "tattoo-reaction": "yes", "past-reaction": "yes", scalp: "yes", "under-16": "yes" });
    expect(told.grounds).toEqual(["other", "under-16", "past-reaction"]);
  });

  test("no text promises anything or says that a colour will do no harm", () => {
    for (const answer of ANSWERS) {
      for (const { id } of usual) expect(judge({ [id]: answer }).why.text).not.toMatch(/\bsafe|guarantee|can colour/i);
    }
  });
});

describe("a whole set of answers", () => {
  const refused = (given: unknown, hasConsent = true, of: readonly Question[] = usual) => {
    const checked = checkAnswers(of, given, hasConsent);
    return checked.ok ? [] : checked.refusals.map(({ code, at }) => [code, at]);
  };

  test("is taken in the order of the questions", () => {
    const turned = Object.fromEntries(Object.entries(answers({ tattoo: "yes" })).toReversed());
    const checked = checkAnswers(usual, turned, true);
    expect(checked.ok && Object.entries(checked.answers)).toEqual(Object.entries(answers({ tattoo: "yes" })));
  });

  test("names what is missing, unknown or no answer, and never says it back", () => {
    const { scalp: _scalp, ...gap } = answers();
    expect(refused(gap)).toEqual([["answer-missing", "answers.scalp"]]);
    expect(refused({ ...answers(), health: "diabetes" })).toEqual([["answer-unknown", "answers.health"]]);
    expect(refused({ ...answers(), health: ["yes"] })).toEqual([["answer-unknown", "answers.health"]]);
    expect(refused({ ...answers(), shoe: "yes" })).toEqual([["question-unknown", "answers.shoe"]]);
    expect(refused(JSON.parse('{"__proto__":"yes"}'))).toContainEqual(["question-unknown", "answers"]);
    expect(refused({ ...answers(), "I once had anaphylaxis": "yes" })).toEqual([["question-unknown", "answers"]]);
    expect(refused(answers(), false)).toEqual([["consent-missing", "consent"]]);
    const told = checkAnswers(usual, { ...answers(), health: "diabetes" }, false);
    expect(JSON.stringify(told)).not.toContain("diabetes");
  });

  test("a question named like something every object has is still unanswered until it is answered", () => {
    const own: readonly Question[] = [{ ...(usual[1] as Question), id: "constructor" }];
    expect(refused({}, true, own)).toEqual([["answer-missing", "answers.constructor"]]);
    expect(refused({ constructor: "no" }, true, own)).toEqual([]);
  });

  test("names at most twenty questions that nobody asked, and cuts long names", () => {
    const many = Object.fromEntries(Array.from({ length: 500 }, (_, n) => [`${n}${"x".repeat(500)}`, "yes"]));
    const told = refused({ ...answers(), ...many });
    expect(told).toHaveLength(20);
    expect(new Set(told.map(([, at]) => at))).toEqual(new Set(["answers"]));
  });
});
