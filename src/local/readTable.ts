/**
 * What was read of one file, in lines for a person who helps a salon on its first day: what it is, what was understood and
 * how, what was not and what to do about it. At most 80 columns, and nothing from the file that a terminal would obey.
 */
import type { ListedEvent } from "../diary/listEvents.ts";
import { clip } from "../feed/clip.ts";
import type { Why } from "../plan/types.ts";
import { formatDay, formatInstant, type Instant, midnight } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { type BlockList, type CalendarRead, isUnderstood } from "./readCalendar.ts";

const ROWS_SHOWN = 20;
const WIDTH = 80;
const WHEN_WIDTH = 18;

/** Without control and format characters, on one line, cut to a width. */
const plain = (text: string, width: number): string =>
  clip(text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, " ").trim(), width);

/** Words in lines of at most WIDTH, each behind a margin. */
const wrap = (text: string, margin: string): string => {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    if (line !== "" && margin.length + line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  return [...lines, line].map((each) => `${margin}${each}\n`).join("");
};

const many = (count: number, one: string, more = `${one}s`): string => `${count} ${count === 1 ? one : more}`;

/** A local time of the zone, `2026-12-11 10:30`, or a date. */
const whenIn = (start: Instant | null, date: number | null, zone: Zone): string => {
  if (start !== null) return formatInstant(zone.wallAt(start)).slice(0, 16).replace("T", " ");
  return date === null ? "?" : `${formatDay(date)} all day`;
};

const placeOf = (start: Instant | null, date: number | null): number => start ?? (date === null ? 0 : midnight(date));

interface Row {
  readonly at: number;
  readonly when: string;
  readonly what: string;
}

/** Rows of which only the earliest are kept while they come. */
class EarliestRows {
  #rows: Row[] = [];
  count = 0;

  add(row: Row): void {
    this.count++;
    this.#rows.push(row);
    if (this.#rows.length >= 2 * ROWS_SHOWN) this.#cut();
  }

  lines(): string {
    this.#cut();
    const shown = this.#rows.map(({ when, what }) => `  ${when.padEnd(WHEN_WIDTH)} ${what}\n`).join("");
    const rest = this.count - this.#rows.length;
    return rest > 0 ? `${shown}  … and ${rest} more; --json gives all\n` : shown;
  }

  #cut(): void {
    this.#rows = this.#rows.sort((one, other) => one.at - other.at).slice(0, ROWS_SHOWN);
  }
}

/** How a zone that the file names was understood. */
const zoneInWords = ({ writtenZone, zone, certain }: ListedEvent): string => {
  if (writtenZone === null) return "";
  if (writtenZone === zone) return plain(zone, 50);
  const name = `"${plain(writtenZone, 40)}"`;
  if (zone !== null) return `${name} is ${zone}`;
  return certain ? `${name} as the file itself defines it` : `${name}: not known`;
};

/** Writes the lines; true where all was understood. */
export const writeTable = async (
  file: string,
  { refused, seen }: CalendarRead,
  lists: Iterable<BlockList>,
  { zone, zoneGiven, hasWindow }: { readonly zone: Zone; readonly zoneGiven: boolean; readonly hasWindow: boolean },
  write: (text: string) => Promise<void>,
): Promise<boolean> => {
  const rows = new EarliestRows();
  const happenings = new EarliestRows();
  const troubles = new Map<string, { readonly why: Why; count: number; readonly first: string }>();
  const zones = new Map<string, number>();
  let [understood, skipped, repeating, floating, allDay] = [0, 0, 0, 0, 0];
  let [first, last] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  let allUnderstood = true;
  const note = (why: Why, start: string, uid: string): void => {
    const known = troubles.get(why.code);
    if (known) known.count++;
    else troubles.set(why.code, { why, count: 1, first: `${plain(start, 30) || "no start"}, ${plain(uid, 40)}` });
  };
  for (const list of lists) {
    allUnderstood = isUnderstood(list) && allUnderstood;
    for (const event of list.events) {
      const { start, date, uid, writtenStart, certain, reason, doubt, summary } = event;
      if (reason) note(reason, writtenStart, uid);
      if (doubt) note(doubt, writtenStart, uid);
      const how = zoneInWords(event);
      if (how !== "") zones.set(how, (zones.get(how) ?? 0) + 1);
      if (!certain) continue;
      understood++;
      if (event.repeats) repeating++;
      if (date !== null) allDay++;
      else if (how === "") floating++;
      const at = placeOf(start, date);
      [first, last] = [Math.min(first, at), Math.max(last, at)];
      const what = `${plain(summary, WIDTH - WHEN_WIDTH - 14)}${event.repeats ? " (repeats)" : ""}`;
      rows.add({ at, when: whenIn(start, date, zone), what });
    }
    skipped += list.aside.length;
    for (const { reason, writtenStart, uid } of list.aside) note(reason, writtenStart, uid);
    for (const { start, uid, reason, text } of list.doubts) note({ code: reason, text }, start, uid);
    for (const { start, date, summary } of list.occurrences) {
      const what = plain(summary, WIDTH - WHEN_WIDTH - 4);
      happenings.add({ at: placeOf(start, date), when: whenIn(start, date, zone), what });
    }
  }
  const raw = seen?.raw ?? 0;
  await write(`${plain(file, WIDTH)}\n`);
  if (refused) await write(wrap(`REFUSED. ${refused.text}`, "  "));
  const uncertain = raw - understood - skipped;
  const parts = [
    `${understood} understood`,
    ...(uncertain > 0 ? [`${uncertain} without a certain start`] : []),
    ...(skipped > 0 ? [`${skipped} left aside`] : []),
  ];
  await write(wrap(`${many(raw, "entry", "entries")} in the text: ${parts.join(", ")}.`, "  "));
  const { calendarName, producer } = seen ?? { calendarName: null, producer: null };
  if (calendarName) await write(`  Calendar "${plain(calendarName, 60)}"\n`);
  if (producer) await write(`  Written by ${plain(producer, 60)}\n`);
  if (understood > 0) {
    const dayOf = (at: number): string => whenIn(at, null, zone).slice(0, 10);
    await write(
      `  From ${dayOf(first)} to ${dayOf(last)}${repeating > 0 ? `; ${many(repeating, "repeats", "repeat")}` : ""}${allDay > 0 ? `; ${allDay} all day` : ""}\n`,
    );
  }
  for (const [how, count] of [...zones].sort(([, one], [, other]) => other - one).slice(0, ROWS_SHOWN)) {
    await write(wrap(`${many(count, "time")} in ${how}`, "  "));
  }
  if (floating + allDay > 0) {
    const remedy = zoneGiven ? "" : " If that is not the salon's, give it: --zone Europe/London, say.";
    await write(
      wrap(
        `${many(floating, "time")} and ${many(allDay, "date")} without a zone, read in ${zone.name}.${remedy}`,
        "  ",
      ),
    );
  }
  if (understood > 0) await write(`\n  Times below are those of ${zone.name}.\n${rows.lines()}`);
  if (hasWindow)
    await write(`\n  ${many(happenings.count, "occurrence")} between the two dates\n${happenings.lines()}`);
  if (troubles.size > 0) await write("\n  Not understood, or left aside\n");
  for (const { why, count, first: example } of troubles.values()) {
    await write(wrap(`${count} × ${why.text}`, "  "));
    await write(`    the first: ${example}\n`);
  }
  await write("\n");
  return allUnderstood;
};
