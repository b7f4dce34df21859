/** What was read of one file, as one JSON object on one line, written piece by piece: a file may hold a hundred thousand events. */
import { type ListedEvent, listEvents } from "../diary/listEvents.ts";
import type { Block, Entry, Skipped } from "../diary/types.ts";
import type { Why } from "../plan/types.ts";
import { formatDay, formatInstant } from "../time/instant.ts";
import type { BufferedOutput } from "./BufferedOutput.ts";
import type { ReadRequest } from "./readArguments.ts";
import { type CalendarRead, isFollowed, isUnderstood, readWindow } from "./readCalendar.ts";
import { SetAside } from "./SetAside.ts";

/** Characters that JSON leaves as they are and a terminal obeys, or takes for the end of a line. */
const OBEYED = /[\u007f-\u009f\u2028\u2029]/g;

const toJson = (value: object): string =>
  JSON.stringify(value).replace(OBEYED, (each) => `\\u${each.charCodeAt(0).toString(16).padStart(4, "0")}`);

/** `text` says in words what `reason` or `doubt` says. */
const entryJson = (event: ListedEvent): string =>
  toJson({
    uid: event.uid,
    recurrenceId: event.recurrenceId,
    start: event.start === null ? null : formatInstant(event.start),
    date: event.date === null ? null : formatDay(event.date),
    certain: event.certain,
    reason: event.reason?.code ?? null,
    doubt: event.doubt?.code ?? null,
    text: (event.reason ?? event.doubt)?.text ?? null,
    repeats: event.repeats,
    cancelled: event.cancelled,
    written: event.writtenStart,
    tzid: event.writtenZone,
    zone: event.zone,
    summary: event.summary,
  });

const asideJson = ({ uid, recurrenceId, writtenStart, reason }: ListedEvent & { readonly reason: Why }): string =>
  toJson({ uid, recurrenceId, written: writtenStart, reason: reason.code, text: reason.text });

const occurrenceJson = ({ uid, recurrenceId, start, date, end, summary }: Entry): string =>
  toJson({
    uid,
    recurrenceId,
    start: start === null ? null : formatInstant(start),
    date: date === null ? null : formatDay(date),
    end: end === null ? null : formatInstant(end),
    summary,
  });

const doubtJson = ({ uid, recurrenceId, start, reason, text }: Skipped): string =>
  toJson({ uid, recurrenceId, written: start, reason, text });

/** Writes values with commas between them. */
const listTo = (output: Pick<BufferedOutput, "write">) => {
  let comma = "";
  return async (values: readonly string[]): Promise<void> => {
    if (values.length === 0) return;
    await output.write(comma + values.join(","));
    comma = ",";
  };
};

/** Writes the object; true where all was understood. */
export const writeJson = async (
  file: string,
  { refused, seen }: CalendarRead,
  { zone, window }: Pick<ReadRequest, "zone" | "window">,
  output: Pick<BufferedOutput, "write">,
): Promise<boolean> => {
  const head = {
    file,
    status: refused ? "refused" : "read",
    reason: refused?.code ?? null,
    text: refused?.text ?? null,
    raw: seen?.raw ?? 0,
    calendar: seen?.calendarName ?? null,
    producer: seen?.producer ?? null,
    zone: zone.name,
  };
  const blocks: readonly Block[] = seen?.blocks ?? [];
  let allUnderstood = refused === null;
  const skipped = new SetAside();
  await output.write(`${toJson(head).slice(0, -1)},"entries":[`);
  const writeEntries = listTo(output);
  for (const block of blocks) {
    const list = listEvents(block, zone);
    allUnderstood = isUnderstood(list) && allUnderstood;
    await writeEntries(list.events.map(entryJson));
    skipped.add(list.aside.map(asideJson));
  }
  await output.write('],"skipped":[');
  for (const piece of skipped.pieces()) await output.write(piece);
  if (window) {
    const doubts = new SetAside();
    await output.write('],"occurrences":[');
    const writeOccurrences = listTo(output);
    for (const block of blocks) {
      const reading = readWindow(block, zone, window);
      allUnderstood = isFollowed(reading) && allUnderstood;
      await writeOccurrences(reading.occurrences.map(occurrenceJson));
      doubts.add(reading.doubts.map(doubtJson));
    }
    await output.write('],"doubts":[');
    for (const piece of doubts.pieces()) await output.write(piece);
  }
  await output.write("]}\n");
  return allUnderstood;
};
