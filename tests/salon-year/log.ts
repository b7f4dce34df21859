/**
 * The simulation's own book of what happened, kept beside the service and from nothing of it but the numbers it gives: who is
 * whose by the outward contract, what was told, answered, decided and erased.
 */
import type { SalonCalendar, Seconds } from "./calendar.ts";
import type { Face } from "./people.ts";

/** A client as the contract tells them apart. */
export interface Holder {
  readonly id: string;
  readonly face: Face;
  email: string | null;
  phone: string | null;
  /** Whether a result of one booking may count for another. */
  confirmed: boolean;
  joined: string | null;
  since: Seconds;
  erasing: { evidence: boolean } | null;
  erased: Seconds | null;
  gone: boolean;
}

export interface LogBooking {
  readonly uid: string;
  /** The client the diary names, before any was joined. */
  under: string;
  start: Seconds;
  chair: string;
  cancelled: Seconds | null;
  gone: boolean;
}

export interface LogRecord {
  readonly id: string;
  readonly told: string;
  taken: string | null;
  readonly booking: string | null;
  readonly kind: string;
  readonly at: Seconds;
  readonly recorded: Seconds;
  readonly outcome: string | null;
  readonly route: string | null;
  readonly by: string | null;
  readonly via: string;
  readonly product: string | null;
  readonly shade: number | null;
  readonly batch: string | null;
  readonly site: string | null;
  readonly reason: string | null;
  readonly note: string | null;
  readonly corrects: string | null;
  readonly reaction: Readonly<Record<string, string>> | null;
  readonly settings: number;
  readonly questions: number | null;
  /** When its appointment was to begin, as it was told. */
  readonly start: Seconds | null;
  gone: boolean;
}

export interface LogScreening {
  readonly told: string;
  taken: string | null;
  readonly booking: string;
  readonly at: Seconds;
  readonly version: number;
  readonly outcome: string | null;
  readonly records: readonly string[];
  answers: Readonly<Record<string, string>> | null;
  gone: boolean;
}

export interface LogConsent {
  readonly told: string;
  readonly at: Seconds;
  readonly given: boolean;
  gone: boolean;
}

export interface LogDeed {
  readonly client: string;
  readonly other: string | null;
  readonly kind: string;
  readonly at: Seconds;
  readonly by: string | null;
  /** Of a split. */
  readonly bookings: readonly string[];
  reason: string | null;
}

/** Rows by the client they stand under. */
class Shelf<Row> {
  readonly #rows = new Map<string, Row[]>();
  readonly #under: (row: Row) => string;

  constructor(under: (row: Row) => string) {
    this.#under = under;
  }

  add(row: Row): void {
    const under = this.#under(row);
    const list = this.#rows.get(under);
    if (list) list.push(row);
    else this.#rows.set(under, [row]);
  }

  under(ids: readonly string[]): readonly Row[] {
    return ids.flatMap((id) => this.#rows.get(id) ?? []);
  }

  /** After something has been put under another client. */
  sortAnew(): void {
    const all = [...this.#rows.values()].flat();
    this.#rows.clear();
    for (const row of all) this.add(row);
  }
}

const present = <Row extends { readonly gone: boolean }>(rows: readonly Row[]): readonly Row[] =>
  rows.filter(({ gone }) => !gone);

export class SalonLog {
  readonly holders = new Map<string, Holder>();
  readonly current = new Map<Face, string>();
  readonly bookings = new Map<string, LogBooking>();
  readonly records = new Map<string, LogRecord>();
  deeds: readonly LogDeed[] = [];
  readonly calendar: SalonCalendar;
  readonly retention: { readonly evidence: string; readonly rest: string };
  settings = 1;
  screeningsTold = 0;
  readonly #bookings = new Shelf<LogBooking>(({ under }) => under);
  readonly #records = new Shelf<LogRecord>(({ told, taken }) => taken ?? told);
  readonly #screenings = new Shelf<LogScreening>(({ told, taken }) => taken ?? told);
  readonly #consents = new Shelf<LogConsent>(({ told }) => told);
  readonly #corrections = new Map<string, LogRecord>();

  constructor(calendar: SalonCalendar, retention: SalonLog["retention"]) {
    this.calendar = calendar;
    this.retention = retention;
  }

  addBooking(booking: LogBooking): void {
    this.bookings.set(booking.uid, booking);
    this.#bookings.add(booking);
  }

  addRecord(record: LogRecord): void {
    this.records.set(record.id, record);
    this.#records.add(record);
    if (record.corrects !== null) this.#corrections.set(record.corrects, record);
  }

  addScreening(screening: LogScreening): void {
    this.screeningsTold++;
    this.#screenings.add(screening);
  }

  addConsent(consent: LogConsent): void {
    this.#consents.add(consent);
  }

  /** After a join or a split. */
  sortAnew(): void {
    for (const shelf of [this.#bookings, this.#records, this.#screenings, this.#consents]) shelf.sortAnew();
  }

  /** Answers that go to another in a split go with the newest statement on keeping them, where she has none of her own. */
  shareConsent(from: string, to: string): void {
    const newest = this.consentsOf(from).toSorted((one, other) => other.at - one.at)[0];
    if (newest && this.consentsOf(to).length === 0) this.addConsent({ ...newest, told: to });
  }

  /**
   * Why others were decided about is forgotten with her, since it may name her; and where she and another of her name were told
   * apart, the name alone proves nothing of the other any more.
   */
  forgetReasons(person: string): void {
    const ids = new Set<string | null>(this.#idsOf(person));
    for (const deed of this.deeds) {
      if (ids.has(deed.other)) deed.reason = null;
      if (deed.kind !== "split") continue;
      const [her, other] = ids.has(deed.other) ? [deed.other, deed.client] : [deed.client, deed.other];
      if (!ids.has(her) || other === null || ids.has(other)) continue;
      if (this.holder(other).face.name === this.holder(her ?? "").face.name)
        this.holder(this.person(other)).confirmed = false;
    }
  }

  /** Nothing is kept of her any more: neither is what was decided about her. */
  forgetPerson(person: string): void {
    const ids = new Set(this.#idsOf(person));
    for (const id of ids) this.holder(id).gone = true;
    this.forgetReasons(person);
    this.deeds = this.deeds.filter(({ client }) => !ids.has(client));
  }

  /** The id that the next record gets: they are numbered as they are told. */
  get nextRecord(): string {
    return `r${this.records.size + 1}`;
  }

  person(id: string): string {
    return this.holders.get(id)?.joined ?? id;
  }

  holder(id: string): Holder {
    const found = this.holders.get(id);
    if (!found) throw new Error(`the log knows no client ${id}`);
    return found;
  }

  ownerOf({ told, taken }: { readonly told: string; readonly taken: string | null }): string {
    return this.person(taken ?? told);
  }

  ownerOfBooking({ under }: LogBooking): string {
    return this.person(under);
  }

  /** All of a person's rows, those that are gone too. */
  #idsOf(person: string): readonly string[] {
    return [...this.holders.values()].filter(({ id, joined }) => (joined ?? id) === person).map(({ id }) => id);
  }

  rowsOf(person: string): readonly Holder[] {
    return this.#idsOf(person)
      .map((id) => this.holder(id))
      .filter(({ gone }) => !gone);
  }

  /** Everybody of whom something is kept. */
  persons(): readonly Holder[] {
    return [...this.holders.values()].filter(({ joined, gone }) => joined === null && !gone);
  }

  recordsOf(person: string): readonly LogRecord[] {
    return present(this.#records.under(this.#idsOf(person)));
  }

  bookingsOf(person: string): readonly LogBooking[] {
    return present(this.#bookings.under(this.#idsOf(person)));
  }

  screeningsOf(person: string): readonly LogScreening[] {
    return present(this.#screenings.under(this.#idsOf(person)));
  }

  consentsOf(person: string): readonly LogConsent[] {
    return present(this.#consents.under(this.#idsOf(person)));
  }

  /** The client whom a diary's entry of this face is taken for today; undefined: a new one. */
  known(face: Face): Holder | undefined {
    const holder = this.holders.get(this.current.get(face) ?? "");
    if (!holder || holder.gone || holder.erased !== null) return undefined;
    // Once her address is forgotten nothing proves that she is the one of that name.
    const isBare = face.email === null && face.phone === null;
    return isBare || (face.email !== null && holder.email === face.email) ? holder : undefined;
  }

  /** The id of the correction that set a record aside. */
  correctionOf({ id }: LogRecord): string | null {
    const correction = this.#corrections.get(id);
    return correction && !correction.gone ? correction.id : null;
  }

  /** Records that stand. */
  standing(person: string): readonly LogRecord[] {
    return this.recordsOf(person).filter(
      (each) => each.kind !== "note" && each.kind !== "correction" && this.correctionOf(each) === null,
    );
  }
}
