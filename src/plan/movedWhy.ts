/** Which shut days moved what, and whose region's days are taken to be shut: in words. Decides nothing. */
import type { Instant } from "../time/instant.ts";
import { DAYS_OFF, type Shutting } from "./closings.ts";
import type { Term } from "./fresh.ts";
import { type Moved, type MovedStep, movedSteps, type Mover } from "./movedBy.ts";
import type { Rules } from "./rules.ts";
import type { Survey } from "./survey.ts";
import type { RouteName, Step, Why } from "./types.ts";
import { daysInWords, inWords } from "./words.ts";

const stepTexts: Readonly<Record<MovedStep, string>> = {
  application: "The last walk-in",
  shipping: "Posting the kit",
  result: "The result",
};

const shuttingTexts: Readonly<Record<Shutting, string>> = {
  "no-post": "no post",
  shut: "the salon is shut",
  "other-hours": "the salon keeps other hours",
};

/** Of the open steps of a plan's route. */
export const movedWhy = (
  found: Survey,
  route: RouteName | null,
  steps: readonly Step[],
  rules: Rules,
): readonly Why[] => {
  const { start } = found.booking;
  const state = found.tests.find((each) => each.route === route);
  if (!state) return [];
  const open = openTerms(steps);
  if (open.size === 0) return [];
  const region = regionWhy(open, start, rules);
  // A kit goes on in the client's hours, which keep no closings (counting.md 6).
  if (state.route === "home-kit") open.delete("application");
  return [...movedSteps(state, open, start, rules).map((each) => say(each, start, rules)), ...region];
};

/** The steps that hang on shut days and are not done; one that has its own time in the diary stands there. */
const openTerms = (steps: readonly Step[]): Map<MovedStep, Term> => {
  const open = new Map<MovedStep, Term>();
  for (const step of steps) {
    const { kind, booked, state } = step;
    if (booked || state === "done") continue;
    if (kind === "application" || kind === "shipping" || kind === "result") open.set(kind, step);
  }
  return open;
};

const say = ({ step, from, to, by }: Moved, near: Instant, rules: Rules): Why => {
  const days = [...new Set(by.map(({ shutting }) => shutting))].map((shutting) => {
    const list = listDays(
      by.filter((each) => each.shutting === shutting),
      rules,
    );
    return `${list}: ${shuttingTexts[shutting]}.`;
  });
  const due = `${stepTexts[step]} is due ${inWords(to, near, rules)}`;
  const instead = from === null ? "and would have no moment otherwise" : `instead of ${inWords(from, near, rules)}`;
  return { code: `${step}-moved`, text: `${days.join(" ")} ${due} ${instead}.` };
};

/** `Boxing Day (substitute day)`: the data's own brackets, inside ours. */
const INNER = / \((.*)\)$/;

const listDays = (days: readonly Mover[], rules: Rules): string => {
  const named = days.map(({ from, to, name }) => `${daysInWords(from, to, rules)} (${name.replace(INNER, ", $1")})`);
  return named.length > 1 ? `${named.slice(0, -1).join(", ")} and ${named.at(-1)}` : named.join("");
};

const placeTexts = {
  "region-missing": "the settings name no region",
  "region-unknown": "the holiday data do not know the region in the settings",
} as const;

/** A day off that only some regions keep lies in the way, and nobody has said, or the data do not know, whose. */
const regionWhy = (open: ReadonlyMap<MovedStep, Term>, start: Instant, rules: Rules): readonly Why[] => {
  const { holidays, zone, closings } = rules;
  if (holidays.place !== "region-missing" && holidays.place !== "region-unknown") return [];
  const national = new Set(holidays.salon.map(({ day }) => day));
  const [first, last] = [zone.dayAt(Math.min(...[...open.values()].map(({ due }) => due))), zone.dayAt(start)];
  for (const { day, name } of holidays.post) {
    if (day < first || day > last || national.has(day)) continue;
    const { salon, post, nearName } = closings.on(day);
    const taken = [
      ...(open.has("shipping") && post === "shut" && nearName !== DAYS_OFF
        ? ["the post is taken to be shut then"]
        : []),
      ...(salon === "usual" ? ["the salon is taken to be open then"] : []),
    ];
    if (taken.length === 0) continue;
    const said = taken.length > 1 ? "the post is taken to be shut then and the salon to be open" : taken[0];
    const text = `${daysInWords(day, day, rules)} (${name}) is a holiday in part of the country only, and ${placeTexts[holidays.place]}: ${said}. Set holidays.region.`;
    return [{ code: holidays.place, text }];
  }
  return [];
};
