/**
 * The account of one block from outside: every VEVENT that is listed gives an entry, is said to be skipped, or is one that
 * another VEVENT of the block may have replaced. Knows nothing of how the reader keeps its own account.
 */
import { listEvents, type ListedEvent } from "../../src/diary/listEvents.ts";
import type { Block, BlockReading, Entry, Horizon } from "../../src/diary/types.ts";
import { DAY_SECONDS } from "../../src/time/instant.ts";
import type { Zone } from "../../src/time/zone.ts";
import { isWrittenStart } from "./startLaw.ts";

/** What the reader itself calls a loss: its own fault, whatever the file. */
const OWN_FAULTS: ReadonlySet<string> = new Set(["unaccounted", "count-differs"]);
/** Days between a date's digits and the horizon from which on a start that is not certain must be said. */
const CLEARLY_INSIDE = 3;
/** Starts of one block that ICU is asked about. */
const STARTS_ASKED = 5;

const instantOf = ({ start, date }: { start: number | null; date: number | null }, zone: Zone): number =>
  start ?? (date === null ? Number.NaN : zone.startOfDay(date));

const isEntry = (entry: Entry, { uid }: Block, { from, to }: Horizon, zone: Zone): boolean => {
  const at = instantOf(entry, zone);
  return (
    Number.isSafeInteger(at) &&
    at >= from &&
    at < to &&
    (entry.start === null) !== (entry.date === null) &&
    (entry.end === null || (Number.isSafeInteger(entry.end) && entry.start !== null && entry.end >= entry.start)) &&
    entry.uid === uid &&
    entry.key.startsWith(uid) &&
    (entry.recurrenceId === null || /^\d{4}-\d\d-\d\d(?:T\d\d:\d\d:\d\dZ)?$/.test(entry.recurrenceId))
  );
};

/** Whether the digits that the file writes lie well inside the horizon; undefined where there are no digits of a date. */
const isWrittenInside = (written: string, { from, to }: Horizon): boolean | undefined => {
  const digits = /^\s*(\d{4})-?(\d{2})-?(\d{2})/.exec(written);
  if (!digits) return undefined;
  const at = Date.parse(`${digits[1]}-${digits[2]}-${digits[3]}`) / 1000;
  if (Number.isNaN(at)) return undefined;
  return at >= from + CLEARLY_INSIDE * DAY_SECONDS && at < to - CLEARLY_INSIDE * DAY_SECONDS;
};

/** The first law that the reading of a block breaks, or null; and how many VEVENTs the list accounts for. */
export const breaksIn = (
  block: Block,
  reading: BlockReading,
  zone: Zone,
  horizon: Horizon,
): { readonly broken: string | null; readonly listed: number } => {
  const { events, aside } = listEvents(block, zone);
  const listed = events.length + aside.length;
  const broken = (law: string) => ({ broken: `${law} (UID ${JSON.stringify(block.uid.slice(0, 60))})`, listed });
  const { entries, skipped } = reading;
  const misread = [...events, ...aside].slice(0, STARTS_ASKED).find((event) => !isWrittenStart(event, zone.name));
  if (misread) return broken(`a start that nobody wrote: ${JSON.stringify(misread)}`);
  const wrong = entries.find((entry) => !isEntry(entry, block, horizon, zone));
  if (wrong) return broken(`an entry outside the horizon or not whole: ${JSON.stringify(wrong).slice(0, 300)}`);
  const own = skipped.find(({ reason }) => OWN_FAULTS.has(reason));
  if (own) return broken(`the reader lost something: ${own.reason} ${own.text}`);

  const said = new Set(skipped.map(({ start }) => start));
  const isSaid = ({ writtenStart }: ListedEvent): boolean => said.has(writtenStart);
  const unsaidAside = [...aside, ...events.filter(({ certain }) => !certain)].find(
    (event) => isWrittenInside(event.writtenStart, horizon) !== false && !isSaid(event) && !mayBeLeftUnread(event),
  );
  if (unsaidAside) return broken(`nothing is said of one that gives nothing: ${JSON.stringify(unsaidAside)}`);

  const shown = new Map<number, number>();
  for (const entry of entries) shown.set(instantOf(entry, zone), (shown.get(instantOf(entry, zone)) ?? 0) + 1);
  const hasMaster = events.some(({ recurrenceId }) => recurrenceId === null);
  // Beside a newer change of the one occurrence, a change to all that follow says something of the later ones alone.
  const isNamedTwice = ({ recurrenceId }: ListedEvent): boolean =>
    events.filter((other) => other.recurrenceId === recurrenceId).length > 1;
  const takesAway = block.events.some((text) => /^(?:RECURRENCE-ID|EXDATE|EXRULE)[;:]/m.test(text));
  for (const event of events) {
    const at = instantOf(event, zone);
    if (!event.certain || !(at >= horizon.from && at < horizon.to) || isSaid(event)) continue;
    const left = shown.get(at) ?? 0;
    if (event.recurrenceId === null ? takesAway : left > 0 || (hasMaster && isNamedTwice(event))) continue;
    if (left === 0) return broken(`neither an entry nor a reason: ${JSON.stringify(event)}`);
    shown.set(at, left - 1);
  }
  return { broken: null, listed };
};

/** A change whose own time is not certain may be told by its RECURRENCE-ID to lie elsewhere; the other laws see to it. */
const mayBeLeftUnread = ({ recurrenceId, writtenStart }: ListedEvent): boolean =>
  recurrenceId !== null || writtenStart === "";
