/**
 * Time zones, and the only door to luxon.
 * A zone's offsets are read from luxon once for each year and kept as a table of changes; after that a wall time or an
 * instant costs a look in that table. The host's own zone is never asked.
 */
import { IANAZone } from "luxon";
import { DAY_SECONDS, type Day, HOUR, type Instant, midnight, type Seconds, type Wall } from "./instant.ts";

/** An instant from which a zone keeps `offset` seconds east of UTC. */
export interface Change {
  readonly at: Instant;
  readonly offset: Seconds;
}

/** A stretch of time with one offset; the ends may be where the table was cut, not a change of the clocks. */
interface Segment {
  readonly from: Instant;
  readonly to: Instant;
  readonly offset: Seconds;
}

/** A segment that holds no instant. */
const NOWHERE: Segment = { from: 0, to: 0, offset: 0 };
/** No zone keeps an offset for less than this between 1970 and 2100; steps of it find every change. */
const SAMPLE_SECONDS = 6 * DAY_SECONDS;
/** Wall times and UTC never differ by more than a day (Apia's skipped day included). */
const FARTHEST_OFFSET = 26 * HOUR;
/** A wall time read so long after a segment began is read by no earlier one, whatever the offsets. */
const CLEAR_OF_OTHERS = 2 * FARTHEST_OFFSET;

/**
 * The names without an area that the IANA database holds. A runtime's own list is wider: it also knows BST (as Dhaka's
 * time), IST, CST and other abbreviations that mean several clocks.
 */
const PLAIN_NAMES = new Set(
  (
    "utc uct gmt zulu universal greenwich gmt0 gmt+0 gmt-0 est mst hst est5edt cst6cdt mst7mdt pst8pdt wet cet met eet " +
    "cuba egypt eire gb gb-eire hongkong iceland iran israel jamaica japan kwajalein libya navajo nz nz-chat poland portugal " +
    "prc roc rok singapore turkey w-su"
  ).split(" "),
);
/** Areas that runtimes know and the IANA database does not. */
const FOREIGN_AREA = /^(?:systemv|posix|right)\//i;

const isIanaName = (name: string): boolean =>
  name.includes("/")
    ? /^[A-Za-z][A-Za-z0-9_+\-/]{1,63}$/.test(name) && !FOREIGN_AREA.test(name)
    : PLAIN_NAMES.has(name.toLowerCase());

/** A name as the database spells it, where the runtime tells; `europe/london` otherwise stays as it is. */
const spelled = (name: string): string => {
  spellings ??= new Map(Intl.supportedValuesOf("timeZone").map((known) => [known.toLowerCase(), known]));
  return spellings.get(name.toLowerCase()) ?? (isPlainlyWritten(name) ? name : capitalised(name));
};
/** Old names, which the runtime takes and does not list: `US/Eastern`, `NZ-CHAT`. */
const isPlainlyWritten = (name: string): boolean => name.split(/[/_]/).every((word) => /^[A-Z]/.test(word));
const capitalised = (name: string): string =>
  name.toLowerCase().replace(/(?<=^|[/_])[a-z]/g, (letter) => letter.toUpperCase());
let spellings: ReadonlyMap<string, string> | undefined;

/** Years for which the changes of the clocks are asked for; outside them the nearest one's offset goes on. */
const [FIRST_YEAR, LAST_YEAR] = [1850, 2250];

export class Zone {
  readonly name: string;
  readonly #zone: IANAZone;
  readonly #years = new Map<number, readonly Segment[]>();
  readonly #writers = new Map<string, Intl.DateTimeFormat>();
  /** Where the last answer was found: the next is asked of the same months nearly always. */
  #last: Segment = NOWHERE;

  private constructor(zone: IANAZone) {
    this.name = zone.name;
    this.#zone = zone;
  }

  /** The zone of an IANA name, or undefined where the database or the runtime knows none. */
  static named(name: string): Zone | undefined {
    // One zone, however it is spelled: strangers' diaries name zones, and each that was named is kept.
    const key = name.toLowerCase();
    const known = zones.get(key);
    if (known) return known;
    if (!isIanaName(name) || !IANAZone.isValidZone(name)) return undefined;
    const zone = new Zone(IANAZone.create(spelled(name)));
    zones.set(key, zone);
    return zone;
  }

  /** The names that this runtime lists, in order of the alphabet: to choose from, not all that it knows. */
  static listed(): readonly string[] {
    return Intl.supportedValuesOf("timeZone").toSorted();
  }

  /** Seconds east of UTC at an instant. */
  offsetAt(instant: Instant): Seconds {
    return this.#segmentAt(instant).offset;
  }

  /** What the clock shows at an instant. */
  wallAt(instant: Instant): Wall {
    return instant + this.offsetAt(instant);
  }

  /** The local date at an instant. */
  dayAt(instant: Instant): Day {
    return Math.floor(this.wallAt(instant) / DAY_SECONDS);
  }

  /**
   * The first instant at which the clock reads this wall time or later (counting.md 2): a repeated time is its first
   * pass, a skipped time is the moment of the change. For our own wall times: opening hours, collections, client's hours.
   */
  firstReading(wall: Wall): Instant {
    const plain = this.#plainReading(wall);
    if (plain !== undefined) return plain;
    for (const segment of this.#segments(wall - FARTHEST_OFFSET, wall + FARTHEST_OFFSET)) {
      const reads = Math.max(segment.from, wall - segment.offset);
      if (reads < segment.to) return reads;
    }
    throw new Error(`Zone ${this.name}: no instant reads wall time ${wall}`);
  }

  /**
   * A diary's wall time as RFC 5545 §3.3.5 reads it: a repeated time is the first, a skipped one takes the offset before
   * the gap.
   */
  diaryReading(wall: Wall): Instant {
    const plain = this.#plainReading(wall);
    if (plain !== undefined) return plain;
    let beforeGap: Instant | undefined;
    for (const segment of this.#segments(wall - FARTHEST_OFFSET, wall + FARTHEST_OFFSET)) {
      const reads = wall - segment.offset;
      if (reads >= segment.from && reads < segment.to) return reads;
      if (reads >= segment.to) beforeGap = reads;
    }
    if (beforeGap === undefined) throw new Error(`Zone ${this.name}: wall time ${wall} is outside the table`);
    return beforeGap;
  }

  /** The first instant of a local date. */
  startOfDay(day: Day): Instant {
    return this.firstReading(midnight(day));
  }

  /** Every change of the clocks in [from, to), in order. */
  changes(from: Instant, to: Instant): readonly Change[] {
    const found: Change[] = [];
    let offset: Seconds | undefined;
    for (const segment of this.#segments(from, to)) {
      if (offset !== undefined && segment.offset !== offset && segment.from >= from && segment.from < to) {
        found.push({ at: segment.from, offset: segment.offset });
      }
      offset = segment.offset;
    }
    return found;
  }

  /** The instant in words of a language: `Tue 9 Dec, 10:30`; `options` are those of Intl.DateTimeFormat. */
  inWords(instant: Instant, language: string, options: Intl.DateTimeFormatOptions): string {
    return this.#writer(language, options).format(instant * 1000);
  }

  /** To make a writer costs a hundred times what it takes to write. */
  #writer(language: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
    let key = language;
    for (const name in options) key += ` ${name}=${options[name as keyof Intl.DateTimeFormatOptions]}`;
    const known = this.#writers.get(key);
    if (known) return known;
    const writer = new Intl.DateTimeFormat(language, { ...options, timeZone: this.name });
    this.#writers.set(key, writer);
    return writer;
  }

  /** The one reading of a wall time far from every change, where the last answer's segment has it; undefined else. */
  #plainReading(wall: Wall): Instant | undefined {
    const { from, to, offset } = this.#last;
    const reads = wall - offset;
    return reads >= from + CLEAR_OF_OTHERS && reads < to ? reads : undefined;
  }

  *#segments(from: Instant, to: Instant): Generator<Segment> {
    for (let year = yearOf(from) - 1; year <= yearOf(to) + 1; year++) {
      for (const segment of this.#year(year)) {
        if (segment.to > from && segment.from <= to) yield segment;
      }
    }
  }

  #segmentAt(instant: Instant): Segment {
    if (instant >= this.#last.from && instant < this.#last.to) return this.#last;
    const segments = this.#year(yearOf(instant));
    let index = segments.length - 1;
    while (index > 0 && (segments[index] as Segment).from > instant) index--;
    this.#last = segments[index] as Segment;
    return this.#last;
  }

  #year(year: number): readonly Segment[] {
    const known = this.#years.get(year);
    if (known) return known;
    // No table is kept of years in which nobody has an appointment: a stranger could name eight thousand of them.
    if (year < FIRST_YEAR || year > LAST_YEAR) {
      const { offset } = (year < FIRST_YEAR ? this.#year(FIRST_YEAR)[0] : this.#year(LAST_YEAR).at(-1)) as Segment;
      return [{ from: startOfYear(year), to: startOfYear(year + 1), offset }];
    }
    const [start, end] = [startOfYear(year), startOfYear(year + 1)];
    const segments: Segment[] = [];
    let from = start;
    let offset = this.#askOffset(start);
    for (let at = start; at < end; ) {
      const next = Math.min(at + SAMPLE_SECONDS, end);
      const nextOffset = this.#askOffset(next === end ? end - 1 : next);
      if (nextOffset !== offset) {
        const change = this.#findChange(at, next === end ? end - 1 : next, offset);
        segments.push({ from, to: change, offset });
        from = change;
        offset = this.#askOffset(change);
        at = change;
      } else at = next;
    }
    segments.push({ from, to: end, offset });
    this.#years.set(year, segments);
    return segments;
  }

  /** The first instant in (low, high] whose offset is no longer `offset`. */
  #findChange(low: Instant, high: Instant, offset: Seconds): Instant {
    let [same, other] = [low, high];
    while (other - same > 1) {
      const middle = Math.floor((same + other) / 2);
      if (this.#askOffset(middle) === offset) same = middle;
      else other = middle;
    }
    return other;
  }

  #askOffset(instant: Instant): Seconds {
    return Math.round(this.#zone.offset(instant * 1000) * 60);
  }
}

const zones = new Map<string, Zone>();

const startOfYear = (year: number): Instant => {
  const date = new Date(0);
  date.setUTCFullYear(year, 0, 1);
  return date.getTime() / 1000;
};

const yearOf = (instant: Instant): number => new Date(instant * 1000).getUTCFullYear();
