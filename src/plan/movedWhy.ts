/** Which shut days moved what, in words. Decides nothing. */
import type { Instant } from "../time/instant.ts";
import { closedDays, DAYS_OFF } from "./closings.ts";
import { type Moved, movedResult, movedSteps } from "./movedBy.ts";
import type { Rules } from "./rules.ts";
import type { Survey } from "./survey.ts";
import type { RouteName, Step, Why } from "./types.ts";
import { daysInWords, inWords } from "./words.ts";

const stepTexts: Readonly<Record<Moved["step"], string>> = {
  application: "The last walk-in",
  shipping: "Posting the kit",
  result: "The result",
};

/** `Boxing Day (substitute day)`: the data's own brackets, inside ours. */
const INNER = / \((.*)\)$/;

const listDays = ({ days, whose }: Moved, rules: Rules): string => {
  const named = days.map(({ from, to, name }) => `${daysInWords(from, to, rules)} (${name.replace(INNER, ", $1")})`);
  const list = named.length > 1 ? `${named.slice(0, -1).join(", ")} and ${named.at(-1)}` : named.join("");
  if (whose === "post") return `${list}: no post.`;
  const keepsHours = days.some(({ name }) => name !== DAYS_OFF) && rules.settings.opening?.holiday?.length;
  return `${list}: the salon ${keepsHours ? "keeps other hours" : "is shut"}.`;
};

const say = (moved: Moved, near: Instant, rules: Rules): Why => ({
  code: `${moved.step}-moved`,
  text: `${listDays(moved, rules)} ${stepTexts[moved.step]} is due ${inWords(moved.to, near, rules)} instead of ${inWords(moved.from, near, rules)}.`,
});

/** Of the open steps of a plan's route. */
export const movedWhy = (
  found: Survey,
  route: RouteName | null,
  steps: readonly Step[],
  rules: Rules,
): readonly Why[] => {
  const { start } = found.booking;
  const state = found.tests.find((each) => each.route === route);
  const isOpen = (kind: Step["kind"]): boolean =>
    steps.some((step) => step.kind === kind && !step.booked && step.state !== "done");
  if (!state) return [];
  const result = steps.find(({ kind }) => kind === "result");
  const moved = [
    ...(state.fresh ? movedSteps(state.fresh, start, rules) : []),
    ...(result ? [movedResult(result, start, rules)].filter((each) => each !== undefined) : []),
  ].filter(({ step }) => isOpen(step));
  return [...moved.map((each) => say(each, start, rules)), ...regionWhy(steps, start, rules)];
};

/** A day off that only some regions keep lies in the way, and nobody has said which region's the salon keeps. */
const regionWhy = (steps: readonly Step[], start: Instant, rules: Rules): readonly Why[] => {
  const { holidays, zone } = rules;
  if (holidays.place !== "region-missing" && holidays.place !== "region-unknown") return [];
  const national = new Set(holidays.salon.map(({ day }) => day));
  const regional = new Map(holidays.post.flatMap(({ day, name }) => (national.has(day) ? [] : [[day, name]])));
  const first = Math.min(start, ...steps.map(({ due }) => due));
  const [near] = closedDays((day) => regional.get(day) ?? null, zone.dayAt(first), zone.dayAt(start));
  if (!near) return [];
  const text = `${daysInWords(near.from, near.to, rules)} (${near.name}) is a holiday in part of the country, and the settings do not say of which region's the salon keeps: the post is taken to be shut, the salon to be open. Set holidays.region.`;
  return [{ code: holidays.place, text }];
};
