/** ical.js, as Thunderbird has it: every zone from the feed's own definition. */
import ICAL from "ical.js";
import { inOrder, type ReadAlarm, type ReadFeed, type When } from "../types.ts";
import { readFolder } from "./readFolder.ts";

const whenOf = (time: ICAL.Time | null): When | null => {
  if (time === null) return null;
  if (time.isDate) return time.toString();
  // A zone that the feed does not define is floating to ical.js, which would be read by whatever zone is at hand.
  if (time.zone === ICAL.Timezone.localTimezone) throw new Error(`floating: ${time.toString()}`);
  return time.toUnixTime();
};

const wordsOf = (component: ICAL.Component, name: string): string =>
  String(component.getFirstPropertyValue(name) ?? "");
const timeOf = (component: ICAL.Component, name: string): ICAL.Time | null =>
  component.getFirstPropertyValue(name) as ICAL.Time | null;

/** RFC 5545 §3.8.6.3: a relative trigger counts from the start, or with RELATED=END from the end or the due. */
const alarmOf = (alarm: ICAL.Component, start: ICAL.Time | null, end: ICAL.Time | null): ReadAlarm => {
  const isFromEnd = alarm.getFirstProperty("trigger")?.getParameter("related") === "END";
  const base = (isFromEnd ? end : start) as ICAL.Time;
  const trigger = alarm.getFirstPropertyValue("trigger") as ICAL.Duration | ICAL.Time;
  const at = trigger instanceof ICAL.Duration ? base.toUnixTime() + trigger.toSeconds() : trigger.toUnixTime();
  return { uid: wordsOf(alarm, "uid"), at, words: wordsOf(alarm, "description") };
};

/** It has no type for a calendar's name and leaves it as written. */
const nameOf = (calendar: ICAL.Component): string | null => {
  const written = calendar.getFirstPropertyValue("name");
  return written === null ? null : String(ICAL.Property.fromString(`SUMMARY:${String(written)}`).getFirstValue());
};

const eventsIn = (calendar: ICAL.Component): ReadFeed["events"] => {
  ICAL.TimezoneService.reset();
  for (const zone of calendar.getAllSubcomponents("vtimezone")) ICAL.TimezoneService.register(zone);
  return [...calendar.getAllSubcomponents("vevent"), ...calendar.getAllSubcomponents("vtodo")].map((component) => {
    const [start, end] = [
      timeOf(component, "dtstart"),
      timeOf(component, component.name === "vtodo" ? "due" : "dtend"),
    ];
    return {
      uid: wordsOf(component, "uid"),
      start: whenOf(start),
      end: whenOf(end),
      summary: wordsOf(component, "summary"),
      description: wordsOf(component, "description"),
      status: wordsOf(component, "status"),
      sequence: Number(component.getFirstPropertyValue("sequence")),
      stamp: timeOf(component, "dtstamp")?.toUnixTime() as number,
      alarms: inOrder(component.getAllSubcomponents("valarm").map((alarm) => alarmOf(alarm, start, end))),
    };
  });
};

readFolder((text) => {
  const calendar = new ICAL.Component(ICAL.parse(text));
  const about = calendar.getFirstPropertyValue("description");
  return { head: { name: nameOf(calendar), about: about === null ? null : String(about) }, events: eventsIn(calendar) };
});
