/** node-ical, as many servers and Home Assistant's cards have it. */
import nodeIcal, { type DateWithTimeZone, type VAlarm, type VEvent, type VTodo } from "node-ical";
import { inOrder, type ReadAlarm, type ReadFeed, type When } from "../types.ts";
import { readFolder } from "./readFolder.ts";

const two = (value: number): string => String(value).padStart(2, "0");

/** A date is a Date at the host's midnight there, marked. */
const whenOf = (date: DateWithTimeZone | undefined): When | null => {
  if (date === undefined) return null;
  if (Number.isNaN(date.getTime())) throw new Error("no date");
  return date.dateOnly
    ? `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`
    : date.getTime() / 1000;
};

/** A property that has parameters is an object there. */
const wordsOf = (value: unknown): string =>
  typeof value === "object" && value !== null && "val" in value
    ? wordsOf(value.val)
    : typeof value === "string"
      ? value
      : "";

const LENGTH = /^([+-]?)P(?:(\d+)W)?(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?)?$/;

/** It leaves a trigger as it was written. */
const lengthOf = (trigger: string): number => {
  const parts = LENGTH.exec(trigger);
  if (!parts) throw new Error(`not a length: ${trigger}`);
  const [weeks = 0, days = 0, hours = 0, minutes = 0, seconds = 0] = parts.slice(2).map((part) => Number(part ?? 0));
  const size = (((weeks * 7 + days) * 24 + hours) * 60 + minutes) * 60 + seconds;
  return parts[1] === "-" ? -size : size;
};

const isFromEnd = (trigger: unknown): boolean =>
  typeof trigger === "object" && JSON.stringify(trigger).includes('"RELATED":"END"');

const alarmOf = (alarm: VAlarm & { readonly uid?: string }, start: Date, end: Date): ReadAlarm => ({
  uid: alarm.uid ?? null,
  at: (isFromEnd(alarm.trigger) ? end : start).getTime() / 1000 + lengthOf(wordsOf(alarm.trigger)),
  words: wordsOf(alarm.description),
});

/** One that has a UID is kept among the event's own properties, under its UID; only the others are in `alarms`. */
const alarmsIn = (entry: VEvent | VTodo): readonly VAlarm[] => [
  ...(entry.alarms ?? []),
  ...Object.values<unknown>(entry).filter(
    (value): value is VAlarm =>
      typeof value === "object" && value !== null && "type" in value && value.type === "VALARM",
  ),
];

const eventOf = (entry: VEvent | VTodo): ReadFeed["events"][number] => {
  const [start, end] = entry.type === "VTODO" ? [entry.start, entry.due] : [entry.start, entry.end];
  return {
    uid: entry.uid,
    start: whenOf(start),
    end: whenOf(end),
    summary: wordsOf(entry.summary),
    description: wordsOf(entry.description),
    status: wordsOf(entry.status),
    sequence: Number(entry.sequence),
    stamp: entry.dtstamp.getTime() / 1000,
    alarms: inOrder(alarmsIn(entry).map((alarm) => alarmOf(alarm, start as Date, end as Date))),
  };
};

readFolder((text) => {
  const entries = Object.values(nodeIcal.sync.parseICS(text));
  const head: Readonly<Record<string, unknown>> = { ...entries.find((entry) => entry?.type === "VCALENDAR") };
  const words = (name: string): string | null => (name in head ? wordsOf(head[name]) : null);
  return {
    head: { name: words("WR-CALNAME"), about: words("WR-CALDESC") },
    events: entries.flatMap((entry) => (entry?.type === "VEVENT" || entry?.type === "VTODO" ? [eventOf(entry)] : [])),
  };
});
