/** Why a plan stands as it does: sentences for the desk, the standing's own first. Words only: it decides nothing. */
import { type Instant, wholeMinute } from "../time/instant.ts";
import type { AppointmentFault } from "./appointments.ts";
import { type Application, type ApplicationFault, routeOfApplied } from "./applications.ts";
import type { Choice } from "./choose.ts";
import { fellOverWhy } from "./fellOver.ts";
import { movedWhy } from "./movedWhy.ts";
import type { Rules } from "./rules.ts";
import { type Survey, untilFor } from "./survey.ts";
import type { Fact, Plan, Standing, Step, StepKind, Why } from "./types.ts";
import type { Missing, Stop, StopGround } from "./verdict.ts";
import { colourWord, inWords, NOT_A_PROMISE } from "./words.ts";

export interface Judgement {
  readonly found: Survey;
  readonly choice: Choice;
  readonly standing: Standing;
  readonly steps: readonly Step[];
  readonly stop: Stop | undefined;
  readonly missing: readonly Missing[];
  readonly alarm: Plan["alarm"];
  readonly unreadSince: Instant | null;
  readonly toldOfAnother: boolean;
  readonly possibleStop: Instant | null;
  readonly now: Instant;
}

/** Every reason of a plan. In `past` the first is `stop`, `ready` or `not-ready` (counting.md 23). */
export const planWhy = (judged: Judgement, rules: Rules): readonly Why[] => {
  const { standing } = judged;
  if (standing === "cancelled") return [{ code: "cancelled", text: "This appointment is cancelled." }];
  return [
    standingWhy,
    unreadWhy,
    toldOfAnotherWhy,
    possibleStopWhy,
    undecidedWhy,
    newTestWhy,
    routeWhys,
    applicationWhy,
    appointmentWhy,
    otherWhy,
  ].flatMap((why) => why(judged, rules));
};

const stopTexts: Readonly<Record<StopGround, string>> = {
  reaction: "a reaction is recorded",
  "past-reaction": "a past reaction was told at the screening",
  "under-16": "the client is under 16: no colour and no test",
  "do-not-colour": "the newest screening says do not colour",
  "not-sure": "a look is recorded as not sure, and no new test has been put on since",
};

const missingTexts: Readonly<Record<Missing, string>> = {
  "not-told-apart":
    "Nobody has said whether this client is the one of the same name, address, telephone or appointment who has a stop.",
  "not-screened": "The health questions are not passed for this appointment.",
  "not-tested": "No test that covers this appointment is recorded.",
  "not-read": "Not every look that the appointment waits for is recorded clear: not read is not clear.",
  "not-confirmed": "Nobody at the salon has confirmed this appointment after the questions and the last look.",
};

const stepTexts: Readonly<Record<StepKind, string>> = {
  screening: "the health questions",
  shipping: "posting the kit",
  arrival: "the kit's arrival",
  application: "putting the test on",
  removal: "taking the test off",
  reading: "a look at the test",
  result: "the result",
  rescreening: "the health questions, asked again",
};

const standingWhy = (judged: Judgement, rules: Rules): readonly Why[] => {
  const { standing, stop, missing, found, steps, now } = judged;
  const gaps = missing.map((code) => ({ code, text: missingTexts[code] }));
  const ready = { code: "ready", text: `Asked, looked at and confirmed. ${NOT_A_PROMISE}` };
  if (stop && (standing === "stop" || standing === "past")) return stopWhy(stop, found, rules);
  switch (standing) {
    case "past":
      if (missing.length === 0) return [ready];
      return [{ code: "not-ready", text: `The ${colourWord(rules)} was not ready by the records.` }, ...gaps];
    case "ready":
      return [ready];
    case "no-time":
      return [{ code: "no-time", text: "No test fits any more before this appointment. Please telephone the client." }];
    case "late":
      return lateWhy(judged, rules);
    case "due":
    case "on-track": {
      const next = steps.find((step) => step.state === "planned" && (standing !== "due" || step.opens <= now));
      if (!next) return gaps;
      const text = `Next: ${stepTexts[next.kind]}, by ${inWords(wholeMinute(next.due), null, rules)}.`;
      return [{ code: `${next.kind}-due`, text }];
    }
    case "stop":
    case "cancelled":
      throw new Error(`${standing} has its own words`);
    default:
      return standing satisfies never;
  }
};

const stopWhy = (stop: Stop, found: Survey, rules: Rules): readonly Why[] => {
  const at = inWords(wholeMinute(stop.fact.at), found.booking.start, rules);
  return [
    {
      code: "stop",
      text: `Do not ${colourWord(rules)}: ${stopTexts[stop.ground]} (${at}). A person at the salon decides.`,
    },
    { code: `stop-${stop.ground}`, text: "Nothing lifts this by itself; no signed paper does." },
  ];
};

const lateWhy = ({ found, choice, steps, now }: Judgement, rules: Rules): readonly Why[] => {
  const when = (at: Instant): string => inWords(at, found.booking.start, rules);
  const late = steps.filter((step) => step.state === "planned" && step.due < now);
  const reasons = late.map((step) => ({
    code: `${step.kind}-late`,
    text: `Not recorded: ${stepTexts[step.kind]}, due ${when(wholeMinute(step.due))}.`,
  }));
  if (choice.grace === null) return reasons;
  const until = choice.route === null ? null : untilFor(found, choice.route);
  const lapsed = until === null ? "" : ` The last moment for it was ${when(until)}.`;
  return [
    {
      code: "not-recorded",
      text: `Nothing is recorded.${lapsed} Record the test or telephone, by ${when(choice.grace)}.`,
    },
    ...reasons,
  ];
};

const faultTexts: Readonly<Record<ApplicationFault, string>> = {
  "applied-too-late": "that is too near the appointment",
  "applied-too-early": "that is too long before the appointment",
  "removed-early": "it came off more than fifteen minutes early",
  "removed-late": "it came off too near the appointment",
  "look-too-late": "it came off so late that its look falls after the appointment",
};

/** The newest application where it does not count, and the newest of a kind the salon does not do: kept and said (27). */
const applicationWhy = ({ found }: Judgement, rules: Rules): readonly Why[] => {
  const last: Application | undefined = found.applications.at(-1);
  const when = (fact: Fact): string => inWords(fact.at, found.booking.start, rules);
  const reasons: Why[] = [];
  if (last?.fault) {
    const text = `The test that went on ${when(last.fact)} does not count: ${faultTexts[last.fault]}.`;
    reasons.push({ code: last.fault, text });
  }
  const foreign = found.own.findLast((fact) => fact.kind === "applied" && !isOffered(fact, found, rules));
  if (foreign) {
    const text = `The test that went on ${when(foreign)} is of a kind that this salon does not offer, so it does not count.`;
    reasons.push({ code: "route-not-offered", text });
  }
  return reasons;
};

const appointmentTexts: Readonly<Record<AppointmentFault, string>> = {
  "appointment-too-late": "is too near the appointment",
  "appointment-too-early": "is too long before the appointment",
  "appointment-not-offered": "is of a kind that the settings do not offer",
};

/** How the plan came to its route, and which shut days moved its steps; while they still matter. */
const routeWhys = ({ found, choice, standing, steps, now }: Judgement, rules: Rules): readonly Why[] => {
  if (standing !== "on-track" && standing !== "due" && standing !== "late") return [];
  const fellOver = choice.grace === null ? fellOverWhy(found, choice.route, now, rules) : undefined;
  return [...(fellOver ? [fellOver] : []), ...movedWhy(found, choice.route, steps, rules)];
};

/** A test in the diary that anchors nothing (31). */
const appointmentWhy = ({ found, steps, standing }: Judgement, rules: Rules): readonly Why[] => {
  const { refused, booking } = found;
  const isOver = standing === "stop" || standing === "past";
  if (!refused || isOver || steps.some(({ kind, state }) => kind === "application" && state === "done")) return [];
  const remedy =
    refused.fault === "appointment-not-offered" ? "Offer it in the settings, or telephone." : "Move it, or telephone.";
  const text = `The skin test in the diary, ${inWords(refused.at, booking.start, rules)}, ${appointmentTexts[refused.fault]}, so it cannot count. ${remedy}`;
  return [{ code: refused.fault, text }];
};

/** The test that is on does not suffice any more: what to do, and until when a new one counts. */
const newTestWhy = ({ found, alarm, now }: Judgement, rules: Rules): readonly Why[] => {
  const { counting, booking } = found;
  if (alarm?.kind !== "new-test" || !counting) return [];
  const on = inWords(counting.fact.at, booking.start, rules);
  const due = found.tests.find(({ route }) => route === "in-salon")?.fresh?.application.due;
  const still =
    due === undefined || due < now
      ? " No new walk-in test fits any more before this appointment."
      : ` A new walk-in test counts up to ${inWords(due, booking.start, rules)}.`;
  const text = `The health questions asked for a new test after the one of ${on} went on, so that one does not suffice.${still} Telephone the client.`;
  return [{ code: "new-test-needed", text }];
};

/** The diary may say another time by now. */
const unreadWhy = ({ found, standing, unreadSince }: Judgement, rules: Rules): readonly Why[] => {
  if (standing === "past" || unreadSince === null) return [];
  const since = inWords(wholeMinute(unreadSince), found.booking.start, rules);
  const text = `The diary's entry of this appointment cannot be understood any more (since ${since}): its time is the one that was read last, and may be wrong. Mend the entry in the diary.`;
  return [{ code: "entry-unread", text }];
};

/** A result does not move to another name; that it stays behind must be said. */
const toldOfAnotherWhy = ({ standing, toldOfAnother }: Judgement): readonly Why[] => {
  if (standing === "past" || !toldOfAnother) return [];
  const text = `The diary had this appointment under another name or address, and what was recorded then does not count for this client. If she is the same person, a test may be on her skin: record it again for this appointment, with the times it had.`;
  return [{ code: "told-of-another", text }];
};

/** A stop of somebody who may be she: a question that a person answers once. */
const possibleStopWhy = ({ standing, possibleStop }: Judgement, rules: Rules): readonly Why[] => {
  if (standing === "past" || possibleStop === null) return [];
  const text = `Somebody of the same name, address, telephone or appointment has a stop. Find out before you ${colourWord(rules)} whether it is this client, and record it once: one person, or two.`;
  return [{ code: "possible-stop", text }];
};

/** Answers that nobody at the salon has decided on. */
const undecidedWhy = ({ found, standing }: Judgement, rules: Rules): readonly Why[] => {
  const { undecidedAt } = found;
  if (standing === "past" || undecidedAt === null) return [];
  const text = `The client answered the health questions ${inWords(wholeMinute(undecidedAt), found.booking.start, rules)} and was not sure of one: a person at the salon decides. Telephone, then record the screening.`;
  return [{ code: "person-decides", text }];
};

const isOffered = (applied: Fact, { own }: Survey, rules: Rules): boolean =>
  rules.tests.some((test) => test.route === routeOfApplied(applied, own, rules));

const otherWhy = (judged: Judgement, rules: Rules): readonly Why[] => {
  const { found, choice, standing } = judged;
  const when = (at: Instant): string => inWords(at, found.booking.start, rules);
  const reasons: Why[] = [];
  if (choice.route === "home-kit" && choice.grace === null && standing === "late") {
    const kit = judged.steps.find((step) => step.kind === "shipping" && step.state === "planned");
    const walkIn = found.tests.find((state) => state.route === "in-salon");
    if (kit && kit.due < judged.now && walkIn && walkIn.until !== null) {
      const text = `A kit posted now and lost leaves no walk-in to fall back on: that route closes ${when(walkIn.until)}.`;
      reasons.push({ code: "other-route-closes", text });
    }
  }
  if (found.earlier?.fault === "person-not-confirmed") {
    reasons.push({
      code: "person-not-confirmed",
      text: "An earlier test under the same name waits until a person confirms the client.",
    });
  }
  const isReported = found.own.some(
    (fact) => fact.kind === "read" && fact.outcome === "clear" && fact.via === "client-link",
  );
  if (isReported && standing !== "ready" && standing !== "past") {
    reasons.push({
      code: "reported-clear",
      text: `The client reports clear; that alone is never enough. ${NOT_A_PROMISE}`,
    });
  }
  return reasons;
};
