/** Why a route fits or does not, in a sentence that names the deciding moment. Words only: it decides nothing. */
import type { Instant } from "../time/instant.ts";
import type { EarlierTest } from "./cover.ts";
import type { Rules } from "./rules.ts";
import type { Survey, TestState } from "./survey.ts";
import type { TestRule } from "./testRule.ts";
import type { RouteName, Why } from "./types.ts";
import { colourWord, inWords, lengthInWords, NOT_A_PROMISE } from "./words.ts";

/** The reason of one route of a survey; `fits` as reckoned from its last instant. */
export const routeWhy = (found: Survey, route: RouteName, fits: boolean, rules: Rules): Why => {
  const { start } = found.booking;
  const when = (at: Instant): string => inWords(at, start, rules);
  if (route === "on-file") return onFileWhy(found.earlier, when, rules);
  const state = found.tests.find((each) => each.route === route);
  if (!state) throw new Error(`a survey without its route ${route}`);
  return testWhy(state, fits, when, rules);
};

const leadInWords = (test: TestRule, rules: Rules): string => {
  const { least, most } = test.decided;
  const at = `${test.from === "removal" ? "off" : "on"} at least ${lengthInWords(test.least)} before the ${colourWord(rules)}: ${least.name}`;
  return most && test.most !== null ? `${at}; at most ${lengthInWords(test.most)}: ${most.name}` : at;
};

const testWhy = (state: TestState, fits: boolean, when: (at: Instant) => string, rules: Rules): Why => {
  const { test, fresh, application, kit, appointment } = state;
  const lead = leadInWords(test, rules);
  if (application) {
    return { code: "applied", text: `The test went on ${when(application.fact.at)} and keeps the lead (${lead}).` };
  }
  if (appointment && fits) {
    const last =
      state.until !== null && state.until > appointment.due ? `; a walk-in fits until ${when(state.until)}` : "";
    return {
      code: "test-booked",
      text: `The skin test is in the diary for ${when(appointment.due)}${last} (${lead}).`,
    };
  }
  if (appointment && state.until !== null) {
    return { code: "walk-in-closed", text: `The last moment for the skin test was ${when(state.until)} (${lead}).` };
  }
  if (!fresh) {
    const place = test.route === "in-salon" ? "the salon's opening hours" : "the client's hours";
    return { code: "no-moment", text: `No moment in ${place} keeps the lead (${lead}).` };
  }
  const due = when(fresh.application.due);
  if (!kit) {
    return fits
      ? { code: "walk-in-by", text: `Walk in for the skin test by ${due} (${lead}).` }
      : { code: "walk-in-closed", text: `The last walk-in for the skin test was ${due} (${lead}).` };
  }
  if (kit.arrived || kit.posted) return kitWhy(state, fits, due, lead, when);
  if (!fresh.post) return { code: "no-post", text: `No post brings a kit in time to go on by ${due} (${lead}).` };
  const handOver = when(fresh.post.lastHandOver);
  return fits
    ? { code: "hand-over-by", text: `Hand the kit to the post by ${handOver}, so that it goes on by ${due} (${lead}).` }
    : { code: "hand-over-closed", text: `The last post that brings a kit in time left by ${handOver} (${lead}).` };
};

const kitWhy = (state: TestState, fits: boolean, due: string, lead: string, when: (at: Instant) => string): Why => {
  const expected = state.kit?.expected;
  if (!fits) {
    if (state.until !== null)
      return { code: "kit-closed", text: `The kit's last moment to go on was ${due} (${lead}).` };
    const arrival = expected ? `is expected by ${when(expected)}` : "has no expected arrival";
    return {
      code: "kit-expected-late",
      text: `The posted kit ${arrival}; it would have to be on by ${due} (${lead}).`,
    };
  }
  return state.kit?.arrived || !expected
    ? { code: "kit-on-by", text: `The kit is there and goes on by ${due} (${lead}).` }
    : { code: "kit-on-its-way", text: `The kit is expected by ${when(expected)} and goes on by ${due} (${lead}).` };
};

const onFileWhy = (earlier: EarlierTest | null, when: (at: Instant) => string, rules: Rules): Why => {
  if (!earlier) throw new Error("a survey with an on-file route and no earlier test");
  const tested = when(earlier.application);
  const { fault, test } = earlier;
  switch (fault) {
    case null:
      return earlier.provisional
        ? {
            code: "on-file-ahead",
            text: `The test of an earlier appointment, ${tested}, will cover this one if it is clear.`,
          }
        : {
            code: "on-file",
            text: `The clear test of ${tested} still counts; only the screening is repeated. ${NOT_A_PROMISE}`,
          };
    case "not-clear":
      return { code: fault, text: `The earlier test of ${tested} is not recorded clear at every look.` };
    case "person-not-confirmed":
      return {
        code: fault,
        text: "An earlier test under this name waits until a person confirms that it is the same client.",
      };
    case "too-old":
      return {
        code: fault,
        text: `The test of ${tested} is older than ${test.onFile?.months} months on the day of the ${colourWord(rules)}.`,
      };
    case "other-product":
      return { code: fault, text: `The test of ${tested} is not known to be of the planned product.` };
    case "darker-shade":
      return { code: fault, text: `The test of ${tested} is not known to be as dark as the planned shade.` };
    case "asked-anew":
      return { code: fault, text: `A screening since the test of ${tested} asks for a new one.` };
    case "lead-too-short":
      return { code: fault, text: `The test of ${tested} is too near the ${colourWord(rules)} to cover it.` };
    default:
      return fault satisfies never;
  }
};
