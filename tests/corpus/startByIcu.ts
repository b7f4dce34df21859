/** A local time in an IANA zone → its instant, by ICU alone: a path that shares nothing with the reader that is judged. */

const FIELDS = {
  year: "numeric",
  month: "numeric",
  day: "numeric",
  hour: "numeric",
  minute: "numeric",
  second: "numeric",
} as const;

/** What the clocks of a zone show, in milliseconds as if they were UTC. */
const wallAt = (milliseconds: number, timeZone: string): number => {
  const writer = new Intl.DateTimeFormat("en-US", { timeZone, hourCycle: "h23", ...FIELDS });
  const parts = new Map(writer.formatToParts(milliseconds).map(({ type, value }) => [type, Number(value)]));
  const of = (type: keyof typeof FIELDS): number => parts.get(type) ?? Number.NaN;
  return Date.UTC(of("year"), of("month") - 1, of("day"), of("hour"), of("minute"), of("second"));
};

/**
 * @param digits `20070320T150700`
 * @returns `2007-03-20T23:07:00Z`; undefined where ICU knows no such zone, or no moment at which its clocks show this
 */
export const startByIcu = (digits: string, timeZone: string): string | undefined => {
  const parts = /^(\d{4})(\d{2})(\d{2})T(\d{2})(\d{2})(\d{2})$/.exec(digits);
  if (!parts) return undefined;
  const [year, month, day, hour, minute, second] = parts.slice(1).map(Number) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const wall = Date.UTC(year, month - 1, day, hour, minute, second);
  try {
    let at = wall;
    for (let round = 0; round < 3; round++) at += wall - wallAt(at, timeZone);
    return wallAt(at, timeZone) === wall ? `${new Date(at).toISOString().slice(0, 19)}Z` : undefined;
  } catch {
    return undefined;
  }
};
