/**
 * What was read of one file, in lines for a person who helps a salon on its first day: what it is, what was understood and
 * how, what was not and what to do about it. At most 80 columns, and nothing from the file that a terminal would obey.
 */
import { formatDay } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import type { BufferedOutput } from "./BufferedOutput.ts";
import { fitPath, fitText, wrapText } from "./fitText.ts";
import type { ReadRequest } from "./readArguments.ts";
import { type CalendarRead, type DayWindow, isFollowed, readWindow } from "./readCalendar.ts";
import { many, ROWS_SHOWN, rowOf, Tally, WIDTH } from "./Tally.ts";
import { TimedRows } from "./TimedRows.ts";
import type { Troubles } from "./Troubles.ts";

const LABEL_WIDTH = 14;
const ZONES_SHOWN = 8;

/** Words behind a label. */
const labelled = (label: string, text: string): string => wrapText(text, `  ${label}`.padEnd(LABEL_WIDTH), WIDTH);

const zonesInWords = ({ zones }: Tally, zone: Zone, zoneGiven: boolean): string => {
  const { floating, dates, only } = zones;
  const all = zones.byCount();
  const lines = all.slice(0, ZONES_SHOWN).map(([how, count]) => labelled("", `${count} in ${how}`));
  if (all.length > ZONES_SHOWN) lines.push(labelled("", `… and ${all.length - ZONES_SHOWN} zones more`));
  if (floating + dates > 0) {
    const which = [floating > 0 ? many(floating, "time") : "", dates > 0 ? many(dates, "all-day date") : ""];
    const own = only ?? "Europe/London";
    const why = zoneGiven ? "" : `, since no --zone is given; give the salon's own, such as --zone ${own}`;
    lines.push(
      labelled("", `${which.filter((each) => each !== "").join(" and ")} without a zone: read in ${zone.name}${why}`),
    );
  } else if (!zoneGiven && all.length > 0) {
    const own = only ?? "Europe/London";
    lines.push(labelled("", `--zone ${own} shows all by that clock${only === null ? "; give the salon's own" : ""}`));
  }
  return lines.map((line, index) => (index === 0 ? line.replace(/^ {7}/, "  Zones") : line)).join("");
};

const rowsInWords = (rows: TimedRows, heading: string, hidden: string): string => {
  const rest = rows.hidden > 0 ? [`  … and ${rows.hidden} ${hidden}; --json gives all`] : [];
  return ["", `  ${heading}`, ...rows.lines(), ...rest, ""].join("\n");
};

/** Writes what occurs in the window and notes what of it cannot be told; true where there is nothing to note. */
const writeOccurrences = async (
  { seen }: CalendarRead,
  zone: Zone,
  window: DayWindow,
  troubles: Troubles,
  output: Pick<BufferedOutput, "write">,
): Promise<boolean> => {
  const rows = new TimedRows("earliest", ROWS_SHOWN);
  // These were told of the same entries already.
  const said = troubles.codes();
  let allFollowed = true;
  for (const block of seen?.blocks ?? []) {
    const reading = readWindow(block, zone, window);
    allFollowed = isFollowed(reading) && allFollowed;
    for (const { start, date, summary } of reading.occurrences) rows.add(rowOf(start, date, zone, summary));
    for (const { reason, text, start, uid } of reading.doubts) {
      if (!said.has(reason)) troubles.add({ code: reason, text }, `${fitText(start, 24) || "no start"}, ${uid}`);
    }
  }
  const days = `from ${formatDay(window.from)} to before ${formatDay(window.to)}, ${zone.name}`;
  await output.write(rowsInWords(rows, `${many(rows.count, "occurrence")} ${days}`, "later"));
  return allFollowed;
};

/** Writes the lines; true where all was understood. */
export const writeTable = async (
  file: string,
  read: CalendarRead,
  { zone, zoneGiven, window }: Pick<ReadRequest, "zone" | "zoneGiven" | "window">,
  output: Pick<BufferedOutput, "write">,
): Promise<boolean> => {
  const { refused, seen } = read;
  const tally = new Tally(read, zone);
  const raw = seen?.raw ?? 0;
  await output.write(`${fitPath(file, WIDTH)}\n`);
  if (refused) await output.write(labelled("REFUSED", refused.text + (raw > 0 ? " Before that it says:" : "")));
  if (!refused || raw > 0) await output.write(labelled("Entries", tally.entriesInWords(raw, zone)));
  if (seen?.calendarName) await output.write(labelled("Calendar", seen.calendarName));
  if (seen?.producer) await output.write(labelled("Written by", seen.producer));
  await output.write(zonesInWords(tally, zone, zoneGiven));
  if (tally.rows.count > 0) {
    const heading = `${tally.rows.hidden > 0 ? "The latest starts" : "Starts"}, by the clock of ${zone.name}`;
    await output.write(rowsInWords(tally.rows, heading, "earlier"));
  }
  const allFollowed = window === null || (await writeOccurrences(read, zone, window, tally.troubles, output));
  if (!tally.troubles.isEmpty) await output.write("\n  Not understood, or left aside\n");
  for (const line of tally.troubles.lines(WIDTH)) await output.write(line);
  await output.write("\n");
  return tally.allUnderstood && allFollowed;
};
