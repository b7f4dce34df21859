/**
 * A client's feed for one plan: her steps and her appointment. Holds nothing of any other client, and no result. Pure: the
 * same plan gives the same events.
 */
import { SUMMARY_MAX } from "../bounds.ts";
import type { Plan } from "../plan/types.ts";
import { colourAlarms } from "./alarms.ts";
import { cancelContent } from "./cancelContent.ts";
import { clip } from "./clip.ts";
import { colourDescription } from "./descriptions.ts";
import { colourTime } from "./eventTime.ts";
import { fill } from "./fill.ts";
import type { Catalogue } from "./language/catalogue.ts";
import { catalogueOf } from "./language/catalogueOf.ts";
import { asksWhetherOn, needsNewTest, tellsOfStop } from "./openSteps.ts";
import { stepEvents } from "./stepEvent.ts";
import type { EventContent, FeedContext } from "./types.ts";
import { namesIn } from "./words.ts";

/**
 * Her events, steps in the plan's order and the `colour` last. What is not asked for any more is `cancelled`; what has been
 * done stays. Errors: none.
 */
export const clientEvents = (plan: Plan, context: FeedContext): readonly EventContent[] => {
  const colour = colourEvent(plan, context);
  return [...stepEvents(plan, context, "client"), plan.standing === "cancelled" ? cancelContent(colour) : colour];
};

const colourWords = (plan: Plan, colour: Catalogue["discreet"]["colour"]): string => {
  if (tellsOfStop(plan)) return plan.standing === "past" ? colour.stopAfter : colour.stop;
  if (needsNewTest(plan)) return colour.newTest;
  if (plan.standing === "no-time") return colour.noTime;
  return asksWhetherOn(plan) ? colour.asks : colour.todo;
};

const colourEvent = (plan: Plan, context: FeedContext): EventContent => {
  const catalogue = catalogueOf(context.settings.language);
  const colour = context.wording === "discreet" ? catalogue.discreet.colour : catalogue.colour;
  const uid = context.uidOf(plan.booking.uid, "colour", null);
  const time = colourTime(plan.booking);
  return {
    uid,
    kind: "colour",
    time: { allDay: false, ...time },
    summary: clip(fill(colourWords(plan, colour), namesIn(plan, context, catalogue)), SUMMARY_MAX),
    description: colourDescription(plan, context),
    url: context.pageUrl,
    before: null,
    alarms: colourAlarms(uid, plan, time.from, context),
    task: { due: null, done: false },
    cancelled: false,
  };
};
