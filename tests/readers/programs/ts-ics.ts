/** ts-ics, as web pages have it. */
import {
  convertIcsCalendar,
  convertIcsText,
  type IcsAlarm,
  type IcsDateObject,
  type IcsDuration,
  type IcsEvent,
  type IcsTodo,
} from "ts-ics";
import { inOrder, type ReadAlarm, type ReadFeed, type When } from "../types.ts";
import { readFolder } from "./readFolder.ts";

const whenOf = (time: IcsDateObject | null | undefined): When | null => {
  if (!time) return null;
  return time.type === "DATE" ? time.date.toISOString().slice(0, 10) : time.date.getTime() / 1000;
};

const secondsOf = ({ before, weeks = 0, days = 0, hours = 0, minutes = 0, seconds = 0 }: IcsDuration): number =>
  ((((weeks * 7 + days) * 24 + hours) * 60 + minutes) * 60 + seconds) * (before ? -1 : 1);

const alarmOf = ({ trigger, description }: IcsAlarm, start: Date | undefined, end: Date | undefined): ReadAlarm => ({
  // It keeps no UID of an alarm.
  uid: null,
  at:
    trigger.type === "relative"
      ? ((trigger.options?.related === "END" ? end : start)?.getTime() ?? Number.NaN) / 1000 + secondsOf(trigger.value)
      : trigger.value.date.getTime() / 1000,
  // It takes the escapes off an event's words and leaves them in an alarm's.
  words: convertIcsText(undefined, { value: description ?? "" }),
});

const entryOf = (
  entry: IcsEvent | IcsTodo,
  start: IcsDateObject | null | undefined,
  end: IcsDateObject | null | undefined,
) => ({
  uid: entry.uid,
  start: whenOf(start),
  end: whenOf(end),
  summary: entry.summary ?? "",
  description: entry.description ?? "",
  status: entry.status ?? "",
  // It drops a number of nought.
  sequence: entry.sequence ?? 0,
  stamp: entry.stamp.date.getTime() / 1000,
  alarms: inOrder(((entry as IcsEvent).alarms ?? []).map((alarm) => alarmOf(alarm, start?.date, end?.date))),
});

/**
 * ts-ics 2.4.6 cuts the text at every `BEGIN:VEVENT` and `END:VEVENT`, inside a DESCRIPTION too. A fold there (RFC 5545
 * §3.1) leaves the calendar what it is and lets everything else of it be read.
 */
const foldInsideValues = (text: string): string => text.replaceAll(/(?<!^|\n|\nDT)(BEGIN|END):/g, "$1\r\n :");

readFolder((text): Pick<ReadFeed, "head" | "events"> => {
  const { name, events = [], todos = [] } = convertIcsCalendar(undefined, foldInsideValues(text));
  const entries = [
    ...events.map((event) => entryOf(event, event.start, event.end)),
    ...todos.map((todo) => entryOf(todo, todo.start, todo.due)),
  ];
  // Of a calendar's words it takes the escapes off neither, and it keeps the name alone.
  return { head: { name: name === undefined ? null : convertIcsText(undefined, { value: name }) }, events: entries };
});
