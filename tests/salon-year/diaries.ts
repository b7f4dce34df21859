/** The chairs' diaries as an appointment book exports them: entries, and their text. */
import { DAY, HOUR, type SalonCalendar, type Seconds } from "./calendar.ts";
import type { Face } from "./people.ts";

export interface Entry {
  readonly uid: string;
  readonly start: Seconds;
  readonly face: Face;
  readonly kind: "colour" | "cut" | "test";
  /** The booking that it carries; null: it is none. */
  readonly booking: string | null;
}

/** An export holds what has passed for a while. */
const PAST_DAYS = 60;
const TITLES = { colour: "Root tint", cut: "Cut", test: "Skin test" } as const;

export class Diaries {
  readonly #chairs = new Map<string, Map<string, Entry>>();
  readonly #calendar: SalonCalendar;

  constructor(calendar: SalonCalendar, count: number) {
    this.#calendar = calendar;
    for (let chair = 1; chair <= count; chair++) this.#chairs.set(`chair-${chair}`, new Map());
  }

  get names(): readonly string[] {
    return [...this.#chairs.keys()];
  }

  #chair(name: string): Map<string, Entry> {
    const chair = this.#chairs.get(name);
    if (!chair) throw new Error(`no chair ${name}`);
    return chair;
  }

  put(chair: string, entry: Entry): void {
    this.#chair(chair).set(entry.uid, entry);
  }

  /** The entry that carries a booking in a chair. */
  of(chair: string, booking: string): Entry | undefined {
    return [...this.#chair(chair).values()].find((entry) => entry.booking === booking);
  }

  take(chair: string, uid: string): void {
    this.#chair(chair).delete(uid);
  }

  /** Entries from an instant on, with their chairs. */
  ahead(now: Seconds): readonly { readonly chair: string; readonly entry: Entry }[] {
    return [...this.#chairs].flatMap(([chair, entries]) =>
      [...entries.values()].filter(({ start }) => start >= now).map((entry) => ({ chair, entry })),
    );
  }

  isFree(chair: string, start: Seconds): boolean {
    return ![...this.#chair(chair).values()].some((entry) => Math.abs(entry.start - start) < HOUR / 2);
  }

  textOf(chair: string, now: Seconds): string {
    const entries = this.#chair(chair);
    for (const [uid, { start }] of entries) if (start < now - PAST_DAYS * DAY) entries.delete(uid);
    const { zone } = this.#calendar;
    const lines = [...entries.values()].flatMap(({ uid, start, face, kind }) => {
      const isBare = face.email === null && face.phone === null;
      return [
        "BEGIN:VEVENT",
        `UID:${uid}`,
        "DTSTAMP:20260101T000000Z",
        `DTSTART;TZID=${zone}:${this.#calendar.wall(start)}`,
        "DURATION:PT1H30M",
        `SUMMARY:${TITLES[kind]}${isBare ? ` - ${face.name}` : ""}`,
        ...(isBare ? [] : [`ATTENDEE;CN="${face.name}":mailto:${face.email}`]),
        ...(face.phone === null ? [] : [`DESCRIPTION:tel:${face.phone}`]),
        "END:VEVENT",
      ];
    });
    const head = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Quillfen//Appointment book//EN"];
    return [...head, ...lines, "END:VCALENDAR", ""].join("\r\n");
  }
}
