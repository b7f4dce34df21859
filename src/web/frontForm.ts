/**
 * What was asked at the front door: a day and a time of the clock in a zone, each as it was typed, and what is wrong with it in a
 * sentence for its field. Nothing that is wrong is guessed at.
 */
import { COUNT_BACK_YEARS_MAX } from "../bounds.ts";
import { KNOWN_COUNTRIES } from "../feed/emergency.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import { longTime } from "../feed/timeInWords.ts";
import { DAY_SECONDS, type Instant, parseDay, parseWall, type Wall } from "../time/instant.ts";
import { Zone } from "../time/zone.ts";
import { farError } from "./countOne.ts";
import type { OneAsked } from "./onePlan.ts";
import { isPreset } from "./presetWords.ts";

export const FIELDS = ["date", "time", "test", "zone", "country"] as const;
export type Field = (typeof FIELDS)[number];

export interface FrontForm {
  /** As it was typed, or what is offered at first. */
  readonly typed: Readonly<Record<Field, string>>;
  /** By its field. */
  readonly errors: ReadonlyMap<Field, string>;
  /** Said beside the time where it could be read in two ways. */
  readonly note: string | null;
  /** Null: nothing was asked, or something of it is wrong. */
  readonly asked: OneAsked | null;
}

const TYPED_MAX = 100;
const quoted = (value: string): string => `“${value.length > 40 ? `${value.slice(0, 40)}…` : value}”`;
const { time: WORDS } = catalogueOf("en-GB");

/**
 * @param query of the address; what it holds besides is nobody's business here
 * @param offered zone and country, where nothing was asked yet
 */
export const readFrontForm = (
  query: Readonly<Record<string, string>>,
  offered: { readonly zone: string; readonly country: string },
  now: Instant,
): FrontForm => {
  const isAsked = FIELDS.some((field) => query[field] !== undefined);
  const value = (field: Field): string => (query[field] ?? "").trim().slice(0, TYPED_MAX);
  if (!isAsked) {
    const typed = { date: "", time: "", test: "", ...offered };
    return { typed, errors: new Map(), note: null, asked: null };
  }
  const typed = {
    date: value("date"),
    time: value("time"),
    test: value("test"),
    zone: value("zone"),
    country: value("country"),
  };
  const zone = Zone.named(typed.zone);
  const errors = new Map<Field, string>();
  const say = (field: Field, words: string | null): void => void (words === null || errors.set(field, words));
  say("date", dateError(typed.date));
  say("time", timeError(typed.time));
  say("zone", zone ? null : zoneError(typed.zone));
  if (typed.test !== "" && !isPreset(typed.test))
    say("test", `${quoted(typed.test)} is none of these tests: choose one of the list.`);
  if (typed.country !== "" && !KNOWN_COUNTRIES.includes(typed.country))
    say("country", `${quoted(typed.country)} is none of these countries: choose one of the list, or leave it open.`);
  const wall = parseWall(`${typed.date}T${typed.time}`);
  if (!zone || wall === undefined || errors.size > 0) return { typed, errors, note: null, asked: null };
  const reading = readWall(wall, zone);
  say("time", reading.error);
  if (errors.size === 0) say("date", whenError(reading.start, now, zone));
  const { test, country } = typed;
  const asked = { start: reading.start, zone: zone.name, test: test || null, country: country || null };
  return { typed, errors, note: reading.note, asked: errors.size > 0 ? null : asked };
};

const dateError = (date: string): string | null => {
  if (date === "") return "The day of the colour is missing: give one such as 2026-12-11.";
  return parseDay(date) === undefined
    ? `${quoted(date)} is no day: write year, month and day of one that there is, such as 2026-12-11.`
    : null;
};

const timeError = (time: string): string | null => {
  if (time === "") return "The time at which the colour starts is missing: give one such as 10:30.";
  return parseWall(`2000-01-01T${time}`) === undefined
    ? `${quoted(time)} is no time of day: write hours and minutes from 00:00 to 23:59, such as 10:30.`
    : null;
};

const zoneError = (zone: string): string =>
  zone === ""
    ? "The time zone is missing: give one of the list, such as Europe/London."
    : `${quoted(zone)} is the name of no time zone: give one of the list, such as Europe/London.`;

const clock = (at: Wall): string => new Date(at * 1000).toISOString().slice(11, 16);

/** A time that the clocks skip is asked about; of one that comes twice the first is meant, and said. */
const readWall = (
  wall: Wall,
  zone: Zone,
): { readonly start: Instant; readonly error: string | null; readonly note: string | null } => {
  const start = zone.diaryReading(wall);
  if (zone.wallAt(start) !== wall) {
    const error = `There is no ${clock(wall)} on that day in ${zone.name}: the clocks go forward over it. Give the time that the clock will show, such as ${clock(zone.wallAt(start))}.`;
    return { start, error, note: null };
  }
  const isTwice = zone
    .changes(start, start + DAY_SECONDS)
    .some(({ at, offset }) => at > start && wall - offset >= at && zone.wallAt(wall - offset) === wall);
  const note = isTwice
    ? `${clock(wall)} comes twice on that day, since the clocks go back: the first of the two is meant here.`
    : null;
  return { start, error: null, note };
};

const whenError = (start: Instant, now: Instant, zone: Zone): string | null => {
  if (farError(start, now))
    return `That is too far away: give a day at most ${COUNT_BACK_YEARS_MAX} years from now, ${longTime(now - (now % 60), zone, WORDS)}.`;
  if (start <= now)
    return `That start has passed: in ${zone.name} it is ${longTime(now - (now % 60), zone, WORDS)}. Give one that is still ahead.`;
  return null;
};
