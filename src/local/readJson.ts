/** What was read of one file, as one JSON object on one line, made piece by piece: a file may hold a hundred thousand events. */
import type { ListedEvent } from "../diary/listEvents.ts";
import type { Entry, Skipped } from "../diary/types.ts";
import type { Why } from "../plan/types.ts";
import { formatDay, formatInstant } from "../time/instant.ts";
import { type BlockList, type CalendarRead, isUnderstood } from "./readCalendar.ts";

const entryJson = ({ uid, recurrenceId, start, date, certain, reason, doubt, summary }: ListedEvent): object => ({
  uid,
  recurrenceId,
  start: start === null ? null : formatInstant(start),
  date: date === null ? null : formatDay(date),
  certain,
  reason: reason?.code ?? null,
  ...(reason ? { text: reason.text } : {}),
  ...(doubt ? { repetition: doubt } : {}),
  summary,
});

const asideJson = ({ uid, recurrenceId, writtenStart, reason }: ListedEvent & { readonly reason: Why }): object => ({
  uid,
  recurrenceId,
  start: writtenStart,
  reason: reason.code,
  text: reason.text,
});

const occurrenceJson = ({ uid, recurrenceId, start, date, end, summary }: Entry): object => ({
  uid,
  recurrenceId,
  start: start === null ? null : formatInstant(start),
  date: date === null ? null : formatDay(date),
  end: end === null ? null : formatInstant(end),
  summary,
});

const doubtJson = ({ uid, recurrenceId, start, reason, text }: Skipped): object => ({
  uid,
  recurrenceId,
  start,
  reason,
  text,
});

/**
 * Writes the object; true where all was understood.
 * @param lists of the file's blocks, made as they are asked for
 * @param hasWindow whether occurrences were asked for
 */
export const writeJson = async (
  file: string,
  { refused, seen }: CalendarRead,
  lists: Iterable<BlockList>,
  hasWindow: boolean,
  write: (text: string) => Promise<void>,
): Promise<boolean> => {
  const head = { file, status: refused ? "refused" : "read", reason: refused?.code ?? null, text: refused?.text };
  const about = { raw: seen?.raw ?? 0, calendar: seen?.calendarName ?? null, producer: seen?.producer ?? null };
  await write(`${JSON.stringify({ ...head, ...about }).slice(0, -1)},"entries":[`);
  const skipped: string[] = [];
  const occurrences: string[] = [];
  const doubts: string[] = [];
  let allUnderstood = true;
  let comma = "";
  for (const list of lists) {
    allUnderstood = isUnderstood(list) && allUnderstood;
    const entries = list.events.map((event) => JSON.stringify(entryJson(event))).join(",");
    if (entries !== "") {
      await write(comma + entries);
      comma = ",";
    }
    skipped.push(...list.aside.map((event) => JSON.stringify(asideJson(event))));
    occurrences.push(...list.occurrences.map((entry) => JSON.stringify(occurrenceJson(entry))));
    doubts.push(...list.doubts.map((each) => JSON.stringify(doubtJson(each))));
  }
  await write(`],"skipped":[${skipped.join(",")}]`);
  if (hasWindow) await write(`,"occurrences":[${occurrences.join(",")}],"doubts":[${doubts.join(",")}]`);
  await write("}\n");
  return allUnderstood;
};
