/**
 * The DESCRIPTION of every event, in short paragraphs: the thing to do first, then where to tell of it, since Thunderbird
 * opens a description at its first link. Every one of a client's holds the fixed emergency words. A salon's holds no contact
 * of the client's and nothing of her answers.
 */
import { APPLICATION_FAULTS } from "../plan/applications.ts";
import type { Plan, RouteName, Step } from "../plan/types.ts";
import { wholeMinute } from "../time/instant.ts";
import { emergencyWords } from "./emergency.ts";
import { fill } from "./fill.ts";
import type { Catalogue } from "./language/catalogue.ts";
import { catalogueOf } from "./language/catalogueOf.ts";
import { asksWhetherOn, isTestOnBeside, isWithSalon, needsNewTest, tellsOfStop } from "./openSteps.ts";
import { durationInWords, lengthInWords, shortTime } from "./timeInWords.ts";
import type { FeedContext } from "./types.ts";
import { mayMeetLeftKit, moodOf, namesIn, stepNameOf, stepSpan, waitsForSalon } from "./words.ts";

/** What a paragraph is made from. */
interface Telling {
  readonly plan: Plan;
  readonly context: FeedContext;
  readonly catalogue: Catalogue;
  readonly names: Readonly<Record<string, string>>;
}

const tellingOf = (plan: Plan, context: FeedContext): Telling => {
  const catalogue = catalogueOf(context.settings.language);
  return { plan, context, catalogue, names: namesIn(plan, context, catalogue) };
};

const paragraphs = (...texts: readonly (string | null)[]): string => texts.filter((text) => text !== null).join("\n\n");

/** A step of a kit that is still to be used. */
const isOfKit = ({ kind, state }: Step): boolean => state !== "done" && (kind === "arrival" || kind === "application");

/** Steps with the test on the skin, or just off it. */
const isOfTest = ({ kind }: Step): boolean => kind === "application" || kind === "removal" || kind === "reading";

/** What to do about a step, for a client's event and page alike: the thing itself, how, and how long. */
export const stepHow = (step: Step, route: RouteName | null, plan: Plan, context: FeedContext): string =>
  howWords(step, route, tellingOf(plan, context));

/** When a step would be if the test it hangs on went on as planned; null of a step that hangs on nothing, or on a recorded test. */
export const stepWhenIf = (step: Step, plan: Plan, context: FeedContext): string | null =>
  moodOf(step, plan) === "hangs" ? whenWords(step, tellingOf(plan, context)) : null;

/** What else there is to know of a step that is still to be done: how, the kit's own words, what to look for, and by which rule. */
export const stepNotes = (step: Step, route: RouteName | null, plan: Plan, context: FeedContext): readonly string[] => {
  const telling = tellingOf(plan, context);
  const { says } = telling.catalogue;
  const how = howWords(step, route, telling);
  if (step.state === "done") return [how];
  const notes = [
    how,
    route === "home-kit" && isOfKit(step) ? kitWords(telling) : null,
    isOfTest(step) ? says.lookFor : null,
    isOfTest(step) ? fill(says.somethingShows, telling.names) : null,
    step.kind === "reading" ? says.notCertain : null,
    movedWords(step, plan),
    ruleWords(step, telling),
  ];
  return notes.filter((note) => note !== null);
};

/** A client's step. `route` is the plan's, or the home kit's for a kit left behind. */
export const clientStepDescription = (
  step: Step,
  route: RouteName | null,
  plan: Plan,
  context: FeedContext,
): string => {
  const telling = tellingOf(plan, context);
  const { says } = telling.catalogue;
  return paragraphs(
    isUnread(plan) ? fill(says.unread, telling.names) : null,
    mayMeetLeftKit(step, plan) ? fill(isTestOnBeside(plan) ? says.testIsOn : says.kitMayBeOn, telling.names) : null,
    howWords(step, route, telling),
    whenWords(step, telling),
    pageWords(telling),
    appointmentWords(telling),
    route === "home-kit" && isOfKit(step) ? kitWords(telling) : null,
    isOfTest(step) ? `${says.lookFor}\n${fill(says.somethingShows, telling.names)}` : null,
    emergencyWords(context.settings.country),
    step.kind === "reading" ? says.notCertain : null,
    says.instructionsWin,
    reachWords(telling),
    movedWords(step, plan),
    ruleWords(step, telling),
  );
};

/** A client's appointment; under `stop` and `no-time` it asks her to telephone and for nothing else. */
export const colourDescription = (plan: Plan, context: FeedContext): string => {
  const telling = tellingOf(plan, context);
  const { says } = telling.catalogue;
  return paragraphs(
    isUnread(plan) ? fill(says.unread, telling.names) : null,
    fill(colourHow(plan, telling.catalogue), telling.names),
    pageWords(telling),
    appointmentWords(telling),
    fill(says.somethingShows, telling.names),
    emergencyWords(context.settings.country),
    tellsOfStop(plan) ? null : says.notCertain,
    reachWords(telling),
  );
};

const colourHow = (plan: Plan, { colour, says }: Catalogue): string => {
  if (tellsOfStop(plan) && plan.standing === "past") return colour.stopAfterHow;
  if (tellsOfStop(plan)) return hasShown(plan) ? colour.stopShownHow : colour.stopHow;
  if (needsNewTest(plan)) return colour.newTestHow;
  if (plan.standing === "no-time") return faultOf(plan) === null ? colour.noTimeHow : colour.noTimeOnHow;
  return asksWhetherOn(plan) ? says.lateTest : colour.how;
};

/** Whether what stops her is that something showed. */
export const hasShown = ({ why }: Plan): boolean => why.some(({ code }) => code === "stop-reaction");

/** Why the test that went on last does not count, in the plan's words; null where it does or none did. */
export const faultOf = ({ why }: Plan): string | null =>
  why.find(({ code }) => APPLICATION_FAULTS.some((fault) => fault === code))?.text ?? null;

/** Whether the diary's entry of it cannot be understood any more, so that the time may be wrong. */
const isUnread = ({ why }: Plan): boolean => why.some(({ code }) => code === "entry-unread");

/** A step as the salon's feed tells it. */
export const salonStepDescription = (step: Step, route: RouteName | null, plan: Plan, context: FeedContext): string => {
  const telling = tellingOf(plan, context);
  const { says, salon, questions } = telling.catalogue;
  const how = isWithSalon(step, plan) ? questions.toDecideHow : salon[stepNameOf(step, route)].how;
  const isOn = isTestOnBeside(plan);
  return paragraphs(
    isUnread(plan) ? says.unreadSalon : null,
    mayMeetLeftKit(step, plan) ? (isOn ? says.testIsOnSalon : says.kitMayBeOnSalon) : null,
    step.kind === "application" && isOn ? faultOf(plan) : null,
    moodOf(step, plan) === "done" && step.kind !== "result" ? says.doneHow : fill(how, telling.names),
    whenWords(step, telling),
    fill(says.appointmentSalon, { at: telling.names["longAt"] ?? "" }),
    step.kind === "reading" || step.kind === "result" ? says.notCertain : null,
    isOfTest(step) ? says.instructionsWin : null,
    movedWords(step, plan),
    ruleWords(step, telling),
  );
};

const appointmentWords = ({ catalogue, names }: Telling): string =>
  fill(catalogue.says.appointment, { ...names, at: names["longAt"] ?? "" });

/** Null of what is done: it was done when the record says. */
const whenWords = (step: Step, { plan, context, catalogue: { says, time } }: Telling): string | null => {
  if (moodOf(step, plan) === "done" && step.kind !== "result") return null;
  const span = stepSpan(step, context);
  if (moodOf(step, plan) !== "hangs" || !step.counted) return fill(says.when, { span });
  return fill(says.whenIf, { span, start: shortTime(wholeMinute(step.counted.from), context.zone, time) });
};

/** How to do a client's step; a test whose time has passed is asked about instead. */
const howWords = (step: Step, route: RouteName | null, { plan, catalogue, names, context }: Telling): string => {
  if (isWithSalon(step, plan)) return fill(catalogue.questions.lookingHow, names);
  if (waitsForSalon(step, plan)) return fill(catalogue.questions.waitTestHow, names);
  if (step.state === "done") return catalogue.says.doneHow;
  const how = fill(catalogue.client[stepNameOf(step, route)].how, names);
  if (step.kind !== "application") return how;
  return moodOf(step, plan) === "late"
    ? fill(catalogue.says.lateTest, names)
    : `${how} ${wearWords({ plan, catalogue, names, context })}`;
};

const wearWords = ({ plan, catalogue }: Telling): string => {
  const removal = plan.steps.find(({ kind }) => kind === "removal");
  return removal?.counted
    ? fill(catalogue.says.wear, { after: lengthInWords(removal.counted.after, catalogue.time) })
    : catalogue.says.wearUntilLook;
};

const kitWords = ({ context, catalogue }: Telling): string | null => {
  const kit = context.settings.tests.find(({ route }) => route === "home-kit")?.kit;
  const told = [
    kit?.name ? fill(catalogue.says.kit, { kit: kit.name }) : null,
    kit?.instructions ? fill(catalogue.says.kitNote, { note: kit.instructions }) : null,
  ].filter((text) => text !== null);
  return told.length === 0 ? null : told.join("\n");
};

/** Null where the salon has said no way to reach it: its name alone helps nobody. */
const reachWords = ({ context, catalogue }: Telling): string | null => {
  const { name, contact } = context.settings;
  const ways = [contact.phone, contact.email, contact.address].filter((way) => way !== null && way !== "");
  return ways.length === 0 ? null : fill(catalogue.says.reach, { contact: [name, ...ways].join(", ") });
};

const pageWords = ({ context, catalogue }: Telling): string | null =>
  context.pageUrl === null ? null : fill(catalogue.says.page, { url: context.pageUrl });

/** Which shut days moved a step: the plan says it in the salon's language. */
const movedWords = (step: Step, plan: Plan): string | null =>
  moodOf(step, plan) === "todo" ? (plan.why.find(({ code }) => code === `${step.kind}-moved`)?.text ?? null) : null;

const ruleWords = ({ rule }: Step, { catalogue }: Telling): string | null => {
  const { says, time } = catalogue;
  if (rule.source === null) return null;
  const length = durationInWords(rule.duration, time);
  const told = { rule: length ?? "", protocol: rule.protocol ?? "", source: rule.source };
  if (rule.protocol === null) return fill(says.source, told);
  return fill(length === null ? says.ruleOnly : says.rule, told);
};
