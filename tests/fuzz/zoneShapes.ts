/** Shapes of zones: the file's own definitions, and names of zones. */
import { calendar, calendarText, day, event, octets, one, type Shape, times, yearlyZone, zone } from "./shapeText.ts";

const OWN = "DTSTART;TZID=Own/Zone:20261211T103000";
/** The name with its letters large where the index has a bit. */
const inCapitals = (name: string, index: number): string =>
  name.replace(/./g, (letter, bit: number) => ((index >> bit) & 1 ? letter.toUpperCase() : letter));
const ZONES = ["Europe/Paris", "Asia/Tokyo", "America/New_York", "Pacific/Auckland"];

export const ZONE_SHAPES: readonly Shape[] = [
  {
    name: "zones of one name",
    size: 25_000,
    make: (size) => calendar(zone("Own/Zone").repeat(size) + event("UID:a", OWN)),
  },
  {
    name: "zones of many names",
    size: 25_000,
    make: (size) =>
      calendar(times(size, (index) => zone(`Own/${index}`)) + event("UID:a", "DTSTART;TZID=Own/7:20261211T103000")),
  },
  {
    name: "calendars with a zone each",
    size: 2_500,
    make: (size) =>
      octets(
        times(size, (index) => calendarText(zone("Own/Zone", 1, `+0${index % 9}00`) + event(`UID:${index}`, OWN))),
      ),
  },
  {
    name: "observances in one zone",
    size: 2_500,
    make: (size) => calendar(zone("Own/Zone", size) + event("UID:a", OWN)),
  },
  {
    name: "yearly rules in one zone",
    size: 100,
    make: (size) => calendar(yearlyZone("Own/Zone", size) + event("UID:a", OWN)),
  },
  {
    name: "entries in a zone of yearly rules",
    size: 5,
    make: (size) => calendar(yearlyZone("Own/Zone", 60) + times(size, (index) => event(`UID:${index}`, OWN))),
  },
  {
    name: "exclusions in a zone of yearly rules",
    size: 250,
    make: (size) =>
      calendar(
        yearlyZone("Own/Zone", 60) +
          event(
            "UID:a",
            OWN,
            "RRULE:FREQ=DAILY",
            `EXDATE;TZID=Own/Zone:${times(size, (index) => `${day(index)}T103000,`)}`,
          ),
      ),
  },
  {
    name: "spellings of a zone's name",
    size: 250,
    make: (size) =>
      calendar(
        times(size, (index) =>
          event(`UID:${index}`, `DTSTART;TZID=${inCapitals("europe/london", index)}:20261211T103000`),
        ),
      ),
  },
  {
    name: "names of zones that nobody knows",
    size: 2_500,
    make: (size) =>
      calendar(times(size, (index) => event(`UID:${index}`, `DTSTART;TZID=Nowhere/Land/Town${index}:20261211T103000`))),
  },
  {
    name: "years in each of four zones",
    size: 200,
    make: (size) =>
      one(
        "RRULE:FREQ=DAILY",
        ...ZONES.map((name) => `EXDATE;TZID=${name}:${times(size, (index) => `${1_000 + index * 10}0601T000000,`)}`),
      ),
  },
];
