/**
 * A reading of rules that is slow and plain: walks every hour from the start on and asks each, by the words of RFC 5545
 * §3.3.10, whether the rule means it. Shares no code with the product, and asks the calendar of JavaScript's Date.
 */

export interface PlainRule {
  readonly freq: "YEARLY" | "MONTHLY" | "WEEKLY" | "DAILY" | "HOURLY";
  readonly interval: number;
  readonly count: number | null;
  /** `MO` … */
  readonly weekStart: string;
  readonly parts: ReadonlyMap<string, readonly string[]>;
}

const DAY_NAMES = ["SU", "MO", "TU", "WE", "TH", "FR", "SA"];
const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;

export const readPlainRule = (text: string): PlainRule => {
  const parts = new Map(text.split(";").map((part) => part.split("=") as [string, string]));
  return {
    freq: parts.get("FREQ") as PlainRule["freq"],
    interval: Number(parts.get("INTERVAL") ?? 1),
    count: parts.has("COUNT") ? Number(parts.get("COUNT")) : null,
    weekStart: parts.get("WKST") ?? "MO",
    parts: new Map([...parts].filter(([name]) => name.startsWith("BY")).map(([name, list]) => [name, list.split(",")])),
  };
};

const utc = (year: number, month: number, day: number): Date => new Date(Date.UTC(year, month, day));
const daysBetween = (from: Date, to: Date): number => Math.round((to.getTime() - from.getTime()) / DAY_MS);
const dayOf = (date: Date): Date => utc(date.getUTCFullYear(), date.getUTCMonth(), date.getUTCDate());

/** The day that the week of a date begins with. */
const weekOf = (date: Date, weekStart: string): Date => {
  let day = dayOf(date);
  while (DAY_NAMES[day.getUTCDay()] !== weekStart) day = new Date(day.getTime() - DAY_MS);
  return day;
};

/** "Week number one of the calendar year is the first week that contains at least four (4) days in that calendar year." */
const weekOne = (year: number, weekStart: string): Date => {
  const week = weekOf(utc(year, 0, 1), weekStart);
  return daysBetween(week, utc(year, 0, 1)) <= 3 ? week : new Date(week.getTime() + 7 * DAY_MS);
};

/** The year that a date's week belongs to. */
const weekYear = (date: Date, weekStart: string): number => {
  const year = date.getUTCFullYear();
  if (date >= weekOne(year + 1, weekStart)) return year + 1;
  return date >= weekOne(year, weekStart) ? year : year - 1;
};

/** Whether a list names a place, from the front (1 …) or from the back (-1 …). */
const names = (list: readonly string[] | undefined, place: number, length: number): boolean =>
  list === undefined || list.some((each) => Number(each) === place || Number(each) === place - length - 1);

const namesWeekday = (rule: PlainRule, date: Date): boolean => {
  const list = rule.parts.get("BYDAY");
  if (!list) return true;
  const isMonthly = rule.freq === "MONTHLY" || rule.parts.has("BYMONTH");
  const [year, month] = [date.getUTCFullYear(), date.getUTCMonth()];
  const first = isMonthly ? utc(year, month, 1) : utc(year, 0, 1);
  const after = isMonthly ? utc(year, month + 1, 1) : utc(year + 1, 0, 1);
  const same: Date[] = [];
  for (let day = first; day < after; day = new Date(day.getTime() + DAY_MS))
    if (day.getUTCDay() === date.getUTCDay()) same.push(day);
  const place = same.findIndex((day) => day.getTime() === dayOf(date).getTime()) + 1;
  return list.some((each) => {
    if (each.slice(-2) !== DAY_NAMES[date.getUTCDay()]) return false;
    return each.length === 2 || names([each.slice(0, -2)], place, same.length);
  });
};

const meansDay = (rule: PlainRule, start: Date, date: Date): boolean => {
  const { freq, parts, weekStart } = rule;
  const [year, month] = [date.getUTCFullYear(), date.getUTCMonth()];
  if (!names(parts.get("BYMONTH"), month + 1, 99)) return false;
  if (!names(parts.get("BYMONTHDAY"), date.getUTCDate(), utc(year, month + 1, 0).getUTCDate())) return false;
  const yearDay = daysBetween(utc(year, 0, 1), dayOf(date)) + 1;
  if (!names(parts.get("BYYEARDAY"), yearDay, daysBetween(utc(year, 0, 1), utc(year + 1, 0, 1)))) return false;
  const ofYear = weekYear(date, weekStart);
  const [one, next] = [weekOne(ofYear, weekStart), weekOne(ofYear + 1, weekStart)];
  const week = Math.floor(daysBetween(one, dayOf(date)) / 7) + 1;
  if (!names(parts.get("BYWEEKNO"), week, daysBetween(one, next) / 7)) return false;
  if (!namesWeekday(rule, date)) return false;
  // "Information, not contained in the rule … derived from the Start Time": the largest that nothing names.
  if (parts.has("BYDAY") || parts.has("BYMONTHDAY") || parts.has("BYYEARDAY")) return true;
  const isSameWeekday = date.getUTCDay() === start.getUTCDay();
  if (parts.has("BYWEEKNO") || freq === "WEEKLY") return isSameWeekday;
  const isSameDate = date.getUTCDate() === start.getUTCDate();
  if (freq === "MONTHLY") return isSameDate;
  if (freq === "YEARLY") return isSameDate && (parts.has("BYMONTH") || month === start.getUTCMonth());
  return true;
};

/** The number of the year, month, week, day or hour that a time lies in. */
const periodOf = ({ freq, parts, weekStart }: PlainRule, date: Date): number => {
  if (freq === "YEARLY") return parts.has("BYWEEKNO") ? weekYear(date, weekStart) : date.getUTCFullYear();
  if (freq === "MONTHLY") return date.getUTCFullYear() * 12 + date.getUTCMonth();
  if (freq === "WEEKLY") return Math.round(weekOf(date, weekStart).getTime() / DAY_MS / 7 + 100 / 7);
  return Math.floor(date.getTime() / (freq === "DAILY" ? DAY_MS : HOUR_MS));
};

/**
 * All that the rule means from the start to the end, in seconds.
 * @param start,end seconds
 */
export const walkEveryHour = (text: string, start: number, end: number): number[] => {
  const rule = readPlainRule(text);
  const begin = new Date(start * 1000);
  const minutes = (rule.parts.get("BYMINUTE") ?? [String(begin.getUTCMinutes())]).map(Number).sort((a, b) => a - b);
  const hours = rule.parts.get("BYHOUR");
  const isMeantHour = (hour: number): boolean => {
    if (hours) return hours.includes(String(hour));
    return rule.freq === "HOURLY" || hour === begin.getUTCHours();
  };
  // A year of weeks is counted in steps from the calendar year of the start.
  const origin = rule.freq === "YEARLY" ? begin.getUTCFullYear() : periodOf(rule, begin);
  const sets = new Map<number, number[]>();
  // A set is whole even where its beginning lies before the start.
  const walkFrom = Math.floor((start * 1000 - 373 * DAY_MS) / DAY_MS) * DAY_MS;
  for (let day = walkFrom; day < end * 1000 + 373 * DAY_MS; day += DAY_MS) {
    const date = new Date(day);
    if (!meansDay(rule, begin, date)) continue;
    for (let hour = 0; hour < 24; hour++) {
      if (!isMeantHour(hour)) continue;
      const period = periodOf(rule, new Date(day + hour * HOUR_MS));
      if ((((period - origin) % rule.interval) + rule.interval) % rule.interval !== 0) continue;
      const set = sets.get(period) ?? [];
      sets.set(period, set);
      for (const minute of minutes) set.push((day + hour * HOUR_MS) / 1000 + minute * 60);
    }
  }
  const places = rule.parts.get("BYSETPOS");
  const meant = [...sets.values()]
    .flatMap((set) => set.filter((_, index) => names(places, index + 1, set.length)))
    .filter((each) => each > start && each < end);
  return [start, ...meant.sort((a, b) => a - b)].slice(0, rule.count ?? undefined);
};
