/** What the reading of one calendar comes to, entry by entry, as far as the table tells it: counts, latest starts, zones, doubts. */
import { type ListedEvent, listEvents } from "../diary/listEvents.ts";
import { DAY_SECONDS, type Day, formatDay, formatInstant, type Instant, midnight } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { fitText } from "./fitText.ts";
import { type CalendarRead, isUnderstood } from "./readCalendar.ts";
import { type TimedRow, TimedRows } from "./TimedRows.ts";
import { Troubles } from "./Troubles.ts";
import { ZonesSeen } from "./ZonesSeen.ts";

/** Columns of the table: what the smallest terminal has. */
export const WIDTH = 80;
/** Rows of one list: a terminal shows them and what stands around them at once. */
export const ROWS_SHOWN = 20;

const WEEKDAYS = ["Thu", "Fri", "Sat", "Sun", "Mon", "Tue", "Wed"] as const;

export const many = (count: number, one: string, more = `${one}s`): string => `${count} ${count === 1 ? one : more}`;

const dayInWords = (day: Day): string => `${formatDay(day)} ${WEEKDAYS[((day % 7) + 7) % 7]}`;

/** `2026-12-11 Fri 10:30  Full head colour`, by the clock of the zone; `all day` stands for a time that there is none of. */
export const rowOf = (start: Instant | null, date: Day | null, zone: Zone, what: string): TimedRow => {
  const wall = date === null ? zone.wallAt(start ?? 0) : midnight(date);
  const time = date === null ? formatInstant(wall).slice(11, 16) : "all day";
  const when = `  ${dayInWords(Math.floor(wall / DAY_SECONDS))} ${time.padEnd(7)}  `;
  return { at: date === null ? (start ?? 0) : zone.startOfDay(date), line: when + fitText(what, WIDTH - when.length) };
};

const exampleOf = ({ writtenStart, writtenZone, summary, uid }: ListedEvent): string => {
  const zone = writtenZone && writtenZone !== "UTC" ? ` in "${fitText(writtenZone, 24)}"` : "";
  return `${fitText(writtenStart, 24) || "no start"}${zone}, ${summary || uid}`;
};

/** What a start alone does not say. */
const marksOf = ({ repeats, cancelled }: ListedEvent): string =>
  `${cancelled ? "(cancelled) " : ""}${repeats ? "(repeats) " : ""}`;

/** The days of the first start and the last. */
const spanOf = (rows: TimedRows, zone: Zone): string => {
  if (rows.count === 0) return "";
  const [first, last] = [formatDay(zone.dayAt(rows.first)), formatDay(zone.dayAt(rows.last))];
  return first === last ? `, with starts on ${first}` : `, with starts from ${first} to ${last}`;
};

/** What the reading of one file comes to. */
export class Tally {
  readonly rows = new TimedRows("latest", ROWS_SHOWN);
  readonly troubles = new Troubles();
  readonly zones = new ZonesSeen();
  uncertain = 0;
  aside = 0;
  repeating = 0;
  cancelled = 0;
  allDay = 0;
  allUnderstood = true;

  constructor({ refused, seen }: CalendarRead, zone: Zone) {
    this.allUnderstood = refused === null;
    for (const block of seen?.blocks ?? []) {
      const list = listEvents(block, zone);
      this.allUnderstood = isUnderstood(list) && this.allUnderstood;
      for (const event of list.events) this.#add(event, zone);
      for (const event of list.aside) this.troubles.add(event.reason, exampleOf(event));
      this.aside += list.aside.length;
    }
  }

  #add(event: ListedEvent, zone: Zone): void {
    this.zones.add(event);
    const why = event.reason ?? event.doubt;
    if (why) this.troubles.add(why, exampleOf(event));
    if (!event.certain) this.uncertain++;
    else this.rows.add(rowOf(event.start, event.date, zone, marksOf(event) + (event.summary || event.uid)));
    if (event.repeats) this.repeating++;
    if (event.cancelled) this.cancelled++;
    if (event.certain && event.date !== null) this.allDay++;
  }

  entriesInWords(raw: number, zone: Zone): string {
    if (raw === 0) return "none";
    const { rows, repeating, cancelled, allDay, uncertain, aside } = this;
    return [
      `${raw} in the text: ${rows.count} understood${spanOf(rows, zone)}`,
      ...(repeating > 0 ? [many(repeating, "repeats", "repeat")] : []),
      ...(cancelled > 0 ? [`${cancelled} cancelled`] : []),
      ...(allDay > 0 ? [`${allDay} all-day, with no time to count back from`] : []),
      ...(uncertain > 0 ? [`${uncertain} with a time that is not certain`] : []),
      ...(aside > 0 ? [`${aside} left aside`] : []),
    ].join("; ");
  }
}
