/** Where the stored text of the diaries names a client: by her name, her address or her telephone. Changes nothing. */
import { HORIZON_AHEAD_DAYS } from "../bounds.ts";
import { foldEmail, foldPhone } from "../diary/clients.ts";
import { seriesOf } from "../diary/entryName.ts";
import { foldName } from "../diary/foldName.ts";
import { phonePattern } from "../diary/phonePattern.ts";
import { isAfter } from "../diary/roughSpan.ts";
import type { Block, Person } from "../diary/types.ts";
import { type WrittenWords, writtenWords } from "../diary/writtenWords.ts";
import type { Instant } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import type { BlockRead } from "./blockReads.ts";
import type { Keeper } from "./keeper.ts";
import { personOf } from "./owners.ts";
import type { Client, State } from "./types.ts";

/** A block of a diary that names her. */
export interface Mention {
  readonly diary: string;
  readonly uid: string;
  /** Its first start from now on; null: all of it has passed. */
  readonly ahead: Instant | null;
  /** Of its entries that are hers, each once: what they say, in the diary as it is read and in one that is held. */
  readonly says: readonly WrittenWords[];
}

/** Lines of an event that hold times, rules and counts (RFC 5545). */
const TIMES =
  /^(?:DTSTART|DTEND|DTSTAMP|DURATION|CREATED|LAST-MODIFIED|RECURRENCE-ID|RDATE|EXDATE|RRULE|EXRULE|SEQUENCE|PRIORITY|TRIGGER)[;:].*$/gim;

/** Whether a text names one of these people; words within longer words do not count. */
export const namesAny = (
  rows: readonly { readonly name: string | null; readonly email: string | null; readonly phone: string | null }[],
): ((text: string) => boolean) => {
  const emails = rows.flatMap(({ email }) => foldEmail(email) ?? []);
  const phones = rows.flatMap(({ phone }) => foldPhone(phone) ?? []).map(phonePattern);
  const names = rows.flatMap(({ name }) => (name === null ? [] : foldName(name)));
  return (written) => {
    // A calendar's text escapes line ends and marks (RFC 5545 §3.3.11).
    const text = written.replace(/\\[nN]/g, " ").replace(/\\([\\;,])/g, "$1");
    const folded = ` ${foldName(text).replace(/[^\p{L}\p{N}@.+]+/gu, " ")} `;
    if (names.some((name) => folded.includes(` ${name.replace(/[^\p{L}\p{N}@.+]+/gu, " ").trim()} `))) return true;
    if (emails.some((email) => text.toLowerCase().includes(email))) return true;
    // A day and a count are digits too, and nobody's telephone.
    const words = phones.length === 0 ? "" : text.replace(TIMES, "");
    return phones.some((phone) => words.search(phone) >= 0);
  };
};

/** What the diaries say of a person, those parts left out that are another client's appointments. */
export const mentionsOf = (keeper: Keeper, rows: readonly Client[], now: Instant): readonly Mention[] => {
  const { state, store } = keeper;
  const ids = new Set(rows.map(({ id }) => personOf(state.clients, id)));
  const owners = new Map<string, Set<string>>();
  for (const { diary, key, client } of state.bookings.values()) {
    const name = `${diary}\n${seriesOf(key)}`;
    owners.set(name, (owners.get(name) ?? new Set()).add(client));
  }
  const isNamed = namesAny(rows);
  // Where another client has her name too, a name alone tells nothing of her.
  const namesakes = [...state.clients.values()].filter(
    (each) => !ids.has(personOf(state.clients, each.id)) && each.erased === null && isNamed(each.name),
  );
  const isProven = namesAny(rows.map(({ email, phone }) => ({ name: null, email, phone })));
  const emails = new Set(rows.flatMap(({ email }) => foldEmail(email) ?? []));
  const all: Mention[] = [];
  for (const diary of state.diaries.keys()) {
    const reads = store.blocks.reads(diary);
    const found = new Map<string, Mention>();
    const look = (block: Block): void => {
      const owner = owners.get(`${diary}\n${block.uid}`);
      if (owner && ![...owner].some((id) => ids.has(id))) return;
      const entries = reads.get(block.uid)?.entries ?? [];
      // Somebody of her name with another address is somebody else.
      const guests = entries.flatMap(({ entry }) => entry.attendees).filter(({ name }) => isNamed(name));
      const isAnothers = ({ email }: Person): boolean => email !== null && !emails.has(foldEmail(email) ?? "");
      if (!owner && emails.size > 0 && guests.length > 0 && guests.every(isAnothers)) return;
      const isOfHer = owner || namesakes.length === 0 ? isNamed : isProven;
      if (!block.events.some(isOfHer)) return;
      // Of a series that several clients share, only what names her.
      const isWhollyHers = owner !== undefined && [...owner].every((id) => ids.has(id));
      const words = block.events.filter((event) => isWhollyHers || isOfHer(event)).map(writtenWords);
      const known = found.get(block.uid);
      if (known) {
        found.set(block.uid, { ...known, says: eachOnce([...known.says, ...words]) });
        return;
      }
      const ahead = aheadIn(block, reads.get(block.uid), keeper.desk.rules.zone, now);
      found.set(block.uid, { diary, uid: block.uid, ahead, says: eachOnce(words) });
    };
    for (const block of store.blocks.of("blocks", diary)) look(block);
    for (const block of store.blocks.of("held", diary)) look(block);
    all.push(...found.values());
  }
  return withBookings(all, state, ids, now);
};

/** An appointment of hers that nothing but a person's answer names is hers all the same. */
const withBookings = (
  found: readonly Mention[],
  { bookings }: Pick<State, "bookings">,
  ids: ReadonlySet<string>,
  now: Instant,
): readonly Mention[] => {
  const all = new Map(found.map((mention) => [`${mention.diary}\n${mention.uid}`, mention]));
  for (const { diary, key, client, start, cancelledAt, summary } of bookings.values()) {
    if (!ids.has(client) || cancelledAt !== null || start < now) continue;
    const uid = seriesOf(key);
    const known = all.get(`${diary}\n${uid}`);
    const says = known?.says ?? [{ summary, description: "", location: "" }];
    const ahead = Math.min(start, known?.ahead ?? start);
    all.set(`${diary}\n${uid}`, { diary, uid, ahead, says });
  }
  return [...all.values()];
};

/** When it next stands in the diary; null: all of it has passed, or its rule has ended. */
const aheadIn = (block: Block, read: BlockRead | undefined, zone: Zone, now: Instant): Instant | null => {
  const starts = (read?.entries ?? []).flatMap(({ entry: { start } }) =>
    start !== null && start >= now ? [start] : [],
  );
  if (starts.length > 0) return Math.min(...starts);
  const { span } = block;
  const today = zone.dayAt(now);
  const isParsed = read !== undefined && read.hash === block.hash && read.readBy !== "";
  // What was parsed was looked through as far as the horizon: only what begins behind it can be ahead, or could not be read.
  const mayStand = isParsed && !isAfter(span, today + HORIZON_AHEAD_DAYS) ? read.skipped.length > 0 : true;
  if (!mayStand || span.last <= today) return null;
  return span.first > today ? zone.startOfDay(span.first) : now;
};

const eachOnce = (words: readonly WrittenWords[]): readonly WrittenWords[] => [
  ...new Map(words.map((each) => [JSON.stringify(each), each])).values(),
];
