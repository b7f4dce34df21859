/**
 * The appointment book of an invented salon, which its diary is written from: some bookings move, some are cancelled, some go,
 * new ones come. Every booking is of a client of its own, so that which booking became which is never in doubt.
 */
import type { Dice } from "../fuzz/Dice.ts";

const FIRST = ["Mara", "Wren", "Tove", "Isolde", "Bram", "Linnea", "Orla", "Pim", "Sunniva", "Caspar", "Edda", "Juno"];
const LAST = [
  "Quillfeather",
  "Tallis-Moor",
  "Ashgrove",
  "Brandlight",
  "Copperfold",
  "Dunnock",
  "Eelgrass",
  "Fernhollow",
];
const SERVICES = ["Root tint", "Full head colour", "Balayage", "Highlights"];
const DAY_MS = 86_400_000;
const QUARTER_MS = 900_000;

interface Entry {
  readonly uid: string;
  readonly client: string;
  service: string;
  start: number;
  revision: number;
  isCancelled: boolean;
}

/** `client|start|title`, sorted: what the service is to hold once the diary is applied. */
export type Bookings = readonly string[];

export interface Diary {
  readonly text: string;
  readonly bookings: Bookings;
}

export const bookingKey = (client: string, start: string, title: string): string => `${client}|${start}|${title}`;
const stamp = (at: number): string => `${new Date(at).toISOString().replaceAll(/[-:]/g, "").slice(0, 15)}Z`;
const instant = (at: number): string => `${new Date(at).toISOString().slice(0, 19)}Z`;

export class Appointments {
  readonly #dice: Dice;
  readonly #chair: string;
  readonly #today: number;
  #entries: Entry[] = [];
  #made = 0;

  /** @param chair a word in the names of its clients, so that no other book has them */
  constructor(dice: Dice, chair: string, size: number, now: number) {
    this.#dice = dice;
    this.#chair = chair;
    this.#today = Math.floor(now / DAY_MS) * DAY_MS;
    for (let count = 0; count < size; count++) this.#add();
  }

  /** A few changes, never so many at once that a careful reader would hold them back. */
  change(): void {
    for (let count = this.#dice.below(2); count > 0; count--) this.#add();
    for (let count = this.#dice.below(3); count > 0; count--) this.#revise((entry) => (entry.start = this.#start()));
    if (this.#dice.below(3) === 0) this.#revise((entry) => (entry.isCancelled = true));
    if (this.#dice.below(4) === 0) this.#revise((entry) => (entry.isCancelled = false));
    if (this.#dice.below(3) === 0) this.#revise((entry) => (entry.service = this.#dice.of(SERVICES)));
    if (this.#dice.below(2) === 0 && this.#entries.length > 5) {
      this.#entries.splice(this.#dice.below(this.#entries.length), 1);
    }
  }

  get diary(): Diary {
    const lines = this.#entries.flatMap(({ uid, client, service, start, revision, isCancelled }) => [
      "BEGIN:VEVENT",
      `UID:${uid}`,
      "DTSTAMP:20260101T000000Z",
      `DTSTART:${stamp(start)}`,
      `DTEND:${stamp(start + 6 * QUARTER_MS)}`,
      `SEQUENCE:${revision}`,
      `SUMMARY:${service}`,
      `ATTENDEE;CN="${client}":mailto:${client.toLowerCase().replaceAll(/[^a-z0-9]+/g, ".")}@example.com`,
      ...(isCancelled ? ["STATUS:CANCELLED"] : []),
      "END:VEVENT",
    ]);
    const head = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Quillfen//Appointment book//EN"];
    const held = this.#entries.filter(({ isCancelled }) => !isCancelled);
    return {
      text: [...head, ...lines, "END:VCALENDAR", ""].join("\r\n"),
      bookings: held.map(({ client, start, service }) => bookingKey(client, instant(start), service)).toSorted(),
    };
  }

  #add(): void {
    const number = this.#made++;
    const name = `${FIRST[number % FIRST.length]} ${LAST[Math.floor(number / FIRST.length) % LAST.length]}`;
    const client = `${name} ${this.#chair}${"i".repeat(Math.floor(number / (FIRST.length * LAST.length)))}`;
    const uid = `${this.#chair.toLowerCase()}-${number}@quillfen.example`;
    const [service, start] = [this.#dice.of(SERVICES), this.#start()];
    this.#entries.push({ uid, client, service, start, revision: 0, isCancelled: false });
  }

  #revise(edit: (entry: Entry) => void): void {
    if (this.#entries.length === 0) return;
    const entry = this.#dice.of(this.#entries);
    edit(entry);
    entry.revision++;
  }

  /** From the day after next to four months ahead, on a quarter of an hour. */
  #start(): number {
    return this.#today + (2 + this.#dice.below(120)) * DAY_MS + (36 + this.#dice.below(28)) * QUARTER_MS;
  }
}
