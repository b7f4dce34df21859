/** The salon's rules for a question that may lie outside the years its desk knows the holidays of. Stores nothing. */
import { holidayPlace, loadHolidays } from "../plan/holidays.ts";
import { compileRules, type Rules } from "../plan/rules.ts";
import { yearOf, type Instant } from "../time/instant.ts";
import type { SalonDesk } from "./desk.ts";

/** Rules look this far from an instant, in whole years (counting.md 7). */
const YEARS_AROUND = 2;

/** @param instants what the question is about: its start, its now */
export const rulesFor = async ({ rules }: SalonDesk, instants: readonly Instant[]): Promise<Rules> => {
  const from = Math.min(...instants.map(yearOf)) - YEARS_AROUND;
  const to = Math.max(...instants.map(yearOf)) + YEARS_AROUND;
  const { holidays, settings, namespace } = rules;
  if (from >= holidays.fromYear && to <= holidays.toYear) return rules;
  const { country, region } = holidayPlace(settings);
  const compiled = compileRules(settings, await loadHolidays(country, region, from, to), namespace);
  if (!compiled.ok) throw new Error("stored settings are refused by the rules", { cause: compiled.refusals });
  return compiled.rules;
};
