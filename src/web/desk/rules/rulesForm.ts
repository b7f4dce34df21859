/**
 * Settings as the fields of a form, and back. Reading what was shown gives what was stored, to the letter; a field that was
 * not sent stays as it is stored, so that a form may hold a part of them. Diaries are no part of it.
 */
import type { Settings } from "../../../settings.ts";
import { readHolidays, readOpening, showHolidays, showOpening } from "./dayFields.ts";
import { type Kind, KINDS } from "./fieldKinds.ts";
import { readField, showField, type Typed } from "./sentFields.ts";
import { readServices, showServices } from "./serviceFields.ts";
import { readTests, showTests } from "./testFields.ts";

export type { Typed } from "./sentFields.ts";

/** Fields that stand for one value each, under the name it has in the settings. */
const SINGLE: readonly (readonly [name: string, kind: Kind])[] = [
  ["name", KINDS.text],
  ["contact.phone", KINDS.optional],
  ["contact.email", KINDS.optional],
  ["contact.address", KINDS.note],
  ["country", KINDS.code],
  ["zone", KINDS.text],
  ["language", KINDS.text],
  ["staff", KINDS.lines],
  ["notColour", KINDS.lines],
  ["testWords", KINDS.lines],
  ["clientFrom", KINDS.lines],
  ["protocols", KINDS.json],
  ["questions", KINDS.json],
  ["lastWalkIn", KINDS.length],
  ["closed", KINDS.dates],
  ["clientHours", KINDS.span],
  ["post.collection", KINDS.ticks],
  ["post.lastCollection", KINDS.time],
  ["post.delivery", KINDS.ticks],
  ["post.deliveredBy", KINDS.time],
  ["post.transit", KINDS.number],
  ["post.count", KINDS.text],
  ["post.closed", KINDS.dates],
  ["post.holidays", KINDS.tick],
  ["show.clients", KINDS.text],
  ["show.words", KINDS.text],
  ["retention.evidence", KINDS.length],
  ["retention.rest", KINDS.length],
];

const isTicks = (kind: Kind): boolean => kind === KINDS.tick || kind === KINDS.ticks;

const valueAt = (settings: unknown, name: string): unknown =>
  name.split(".").reduce<unknown>((value, part) => (value as Readonly<Record<string, unknown>>)[part], settings);

/** The fields as a browser sends them back untouched. */
export const typedOf = (settings: Settings): Typed => {
  const into = new URLSearchParams();
  for (const [name, kind] of SINGLE) showField(into, name, kind, valueAt(settings, name), isTicks(kind));
  showServices(into, settings.services);
  showTests(into, settings.tests);
  showOpening(into, settings.opening);
  showHolidays(into, settings.holidays);
  return into;
};

export interface FormRead {
  /** What is meant, still to go through the settings' door. */
  readonly given: Readonly<Record<string, unknown>>;
  /** Of each service the row it stood in. */
  readonly rows: readonly number[];
}

/** @param stored the settings that the form was filled with */
export const settingsFrom = (typed: Typed, stored: Settings): FormRead => {
  const given: Record<string, unknown> = { ...stored };
  for (const [name, kind] of SINGLE) {
    const [group, field] = name.split(".") as [string, string?];
    const value = readField(typed, name, kind, valueAt(stored, name));
    if (field === undefined) given[group] = value;
    else given[group] = { ...(given[group] as object), [field]: value };
  }
  const { services, rows } = readServices(typed, stored.services);
  given["services"] = services;
  given["tests"] = readTests(typed, stored.tests);
  given["opening"] = readOpening(typed, stored.opening);
  given["holidays"] = readHolidays(typed, stored.holidays);
  return { given, rows };
};
