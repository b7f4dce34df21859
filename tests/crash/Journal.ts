/**
 * The harness's own log of what it told one salon: every record and every set of answers, with what became of it. Each is
 * known again by something of its own: a record by its note, a set of answers by the answers.
 */

export type Fate =
  /** Sent, and nothing has come back yet. */
  | "asked"
  | "acknowledged"
  /** Cut off by a kill: there or not, until somebody looks. */
  | "cut"
  /** Cut off, and found; from then on as good as acknowledged. */
  | "kept"
  /** Cut off, and not found: it may never turn up. */
  | "gone"
  | "refused";

export interface Sent {
  /** As it was sent: every field must come back so. */
  readonly fields: Readonly<Record<string, unknown>>;
  fate: Fate;
  /** As the service first told it, by `written`; undefined until it did. Never another from then on. */
  told?: string;
}

export class Journal {
  readonly records = new Map<string, Sent>();
  readonly screenings = new Map<string, Sent>();
  #notes = 0;

  nextNote(): string {
    return `note ${++this.#notes} of the crashes`;
  }

  sendRecord(note: string, fields: Sent["fields"]): Sent {
    const sent: Sent = { fields, fate: "asked" };
    this.records.set(note, sent);
    return sent;
  }

  sendScreening(key: string, fields: Sent["fields"]): Sent {
    const sent: Sent = { fields, fate: "asked" };
    this.screenings.set(key, sent);
    return sent;
  }
}

/** A set of answers by whose it is and what was answered. */
export const screeningKey = (client: string, answers: Readonly<Record<string, string>>): string =>
  JSON.stringify([client, ...Object.entries(answers).toSorted(([one], [other]) => (one < other ? -1 : 1))]);

/** A row as text that does not depend on the order of its fields: JSON gives that no meaning (RFC 8259 §4). */
export const written = (row: object): string =>
  JSON.stringify(row, (_name, value: unknown) =>
    typeof value === "object" && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).toSorted(([one], [other]) => (one < other ? -1 : 1)))
      : value,
  );
