/**
 * The same instants as a plan gives, reckoned one by one with luxon in the way that first comes to mind, and a floor below
 * that: one subtraction an instant. What is compared is the cost of so many instants, so these answers are not looked at;
 * never used by the product.
 */
import { DateTime } from "luxon";
import type { Plan, Step } from "../../src/plan/types.ts";
import type { Instant } from "../../src/time/instant.ts";
import { busySettings, ZONE } from "./busySalon.ts";

/** What an instant needs at least, to be reckoned from the booking's start. */
type Need = "start" | "exact" | "day" | "hours" | "post" | "hours-ahead";

const needs = ({ kind }: Step): readonly [opens: Need, due: Need] => {
  switch (kind) {
    case "screening":
    case "rescreening":
      return ["exact", "hours"];
    case "shipping":
      return ["hours", "post"];
    case "arrival":
      return ["day", "post"];
    case "application":
      return ["hours", "hours"];
    case "removal":
      return ["exact", "exact"];
    case "reading":
      return ["exact", "hours"];
    case "result":
      return ["exact", "hours"];
    default:
      return kind satisfies never;
  }
};

/** What each instant of a plan needs: its steps' opens and due, its routes' until, firstDue and earliest, and the start. */
export const needsOf = (plan: Plan): readonly Need[] => {
  const list: Need[] = ["start", ...plan.steps.flatMap(needs)];
  for (const { until, firstDue, earliest } of plan.routes) {
    if (until !== null) list.push("hours");
    if (firstDue !== null) list.push("hours");
    if (earliest !== null) list.push("hours-ahead");
  }
  return list;
};

const WEEKDAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"] as const;
const opening = busySettings.opening ?? {};
/** First and last wall time of each ISO weekday. */
const hoursByWeekday = WEEKDAYS.map((name) => {
  const spans = opening[name] ?? [];
  const times = spans.flatMap((span) => span.split("-")).map((time) => time.split(":").map(Number));
  return times.length === 0 ? null : { from: times[0] as number[], to: times.at(-1) as number[] };
});

/** Reckons one instant as `need` says, `hours` before the start; `shut` holds ISO dates. */
const reckonOne = (start: Instant, need: Need, hours: number, shut: ReadonlySet<string>): Instant => {
  let at = DateTime.fromSeconds(start, { zone: ZONE });
  if (need === "start") return at.toUTC().toSeconds();
  at = need === "hours-ahead" ? at.plus({ hours }) : at.minus({ hours });
  if (need === "exact") return at.toUTC().toSeconds();
  if (need === "day") return at.startOf("day").toUTC().toSeconds();
  if (need === "post") {
    while (at.weekday > 5 || shut.has(at.toISODate() as string)) at = at.minus({ days: 1 });
    return at.set({ hour: 16, minute: 30, second: 0 }).toUTC().toSeconds();
  }
  const step = need === "hours-ahead" ? 1 : -1;
  let day = hoursByWeekday[at.weekday - 1];
  while (!day || shut.has(at.toISODate() as string)) {
    at = at.plus({ days: step });
    day = hoursByWeekday[at.weekday - 1];
  }
  const edge = step > 0 ? day.from : day.to;
  return at
    .set({ hour: edge[0] ?? 0, minute: edge[1] ?? 0, second: 0 })
    .toUTC()
    .toSeconds();
};

/** The plain reckoning of one plan's instants; their sum, so that nothing is left out by the compiler. */
export const reckonPlainly = (start: Instant, list: readonly Need[], shut: ReadonlySet<string>): number => {
  let sum = 0;
  for (let index = 0; index < list.length; index++) sum += reckonOne(start, list[index] as Need, 24 + index * 5, shut);
  return sum;
};

/** The floor: for each instant one luxon time, one exact subtraction, nothing else. */
export const subtractOnly = (start: Instant, count: number): number => {
  let sum = 0;
  for (let index = 0; index < count; index++) {
    sum += DateTime.fromSeconds(start, { zone: ZONE })
      .minus({ hours: 24 + index * 5 })
      .toSeconds();
  }
  return sum;
};
