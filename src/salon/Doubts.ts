/**
 * Who may be one person though nobody has said so: two clients of one name, or of one address or telephone. Only a person
 * decides; until then a stop of one is a question about the other. Pure; looks at everything once, when it is first asked.
 */
import { foldEmail, foldPhone } from "../diary/clients.ts";
import { foldName } from "../diary/foldName.ts";
import { readLedger } from "../plan/ledger.ts";
import type { Fact } from "../plan/types.ts";
import { findStop } from "../plan/verdict.ts";
import type { Instant } from "../time/instant.ts";
import { personOf } from "./owners.ts";
import type { Client } from "./types.ts";

/** What two clients have in common. */
export type Agreement = "name" | "email" | "phone" | "parted" | "appointment";

/** Somebody who may be the same person. */
export interface Likeness {
  readonly id: string;
  readonly agrees: readonly Agreement[];
}

const TRAITS = ["name", "email", "phone"] as const;

const foldedOf = (agreement: (typeof TRAITS)[number], { name, email, phone }: Client): string | null => {
  if (agreement === "name") return foldName(name);
  return agreement === "email" ? foldEmail(email) : foldPhone(phone);
};

export class Doubts {
  readonly #clients: ReadonlyMap<string, Client>;
  readonly #factsOf: ReadonlyMap<string, readonly Fact[]>;
  readonly #carried: ReadonlyMap<string, ReadonlySet<string>>;
  #byTrait: ReadonlyMap<string, ReadonlySet<string>> | undefined;
  readonly #rows = new Map<string, Client[]>();
  readonly #stops = new Map<string, Instant | null>();

  /**
   * @param factsOf records by person
   * @param carried whose stops stand under appointments of each person
   */
  constructor(
    clients: ReadonlyMap<string, Client>,
    factsOf: ReadonlyMap<string, readonly Fact[]>,
    carried: ReadonlyMap<string, ReadonlySet<string>>,
  ) {
    this.#clients = clients;
    this.#factsOf = factsOf;
    this.#carried = carried;
  }

  /** Everybody who may be this person, in the order they were first known. */
  likenesses(person: string): readonly Likeness[] {
    const traits = this.#traits();
    const found = new Map<string, Agreement[]>();
    const note = (other: string, agreement: Agreement): void => {
      if (other === person || this.#areApart(person, other)) return;
      const agrees = found.get(other) ?? [];
      if (!agrees.includes(agreement)) found.set(other, [...agrees, agreement]);
    };
    for (const agreement of TRAITS) {
      const alike = new Set<string>();
      for (const row of this.#rows.get(person) ?? []) {
        const folded = foldedOf(agreement, row);
        for (const other of (folded && traits.get(`${agreement} ${folded}`)) || []) alike.add(other);
      }
      for (const other of alike) note(other, agreement);
    }
    // What was told while two were taken for one may be of either.
    for (const { parted } of this.#rows.get(person) ?? []) {
      for (const id of parted) if (this.#clients.has(id)) note(personOf(this.#clients, id), "parted");
    }
    // An appointment that changed its name may have had the right person all along.
    for (const id of this.#carried.get(person) ?? []) if (this.#clients.has(id)) note(id, "appointment");
    const numberOf = (id: string): number => this.#clients.get(id)?.number ?? 0;
    return [...found]
      .map(([id, agrees]) => ({ id, agrees }))
      .toSorted((one, other) => numberOf(one.id) - numberOf(other.id));
  }

  /** Since when somebody who may be this person has a stop; null: nobody has. */
  possibleStop(person: string): Instant | null {
    const stops = this.likenesses(person).map(({ id }) => this.stopOf(id));
    return stops.reduce((first, stop) => (stop !== null && (first === null || stop < first) ? stop : first), null);
  }

  /** Since when a stop of this person's is recorded, whichever appointment it was told under; null: none stands. */
  stopOf(person: string): Instant | null {
    const known = this.#stops.get(person);
    if (known !== undefined) return known;
    const facts = (this.#factsOf.get(person) ?? []).filter((fact) => !("isLeft" in fact && fact.isLeft === true));
    // What has happened is all in the past of now: a record cannot lie ahead.
    const ledger = readLedger(facts, Number.POSITIVE_INFINITY);
    const bookings = new Set(facts.map(({ booking }) => booking ?? ""));
    const stop = [...bookings].map((uid) => findStop(uid, ledger)).find((each) => each !== undefined);
    const since = stop?.fact.recorded ?? null;
    this.#stops.set(person, since);
    return since;
  }

  #areApart(one: string, other: string): boolean {
    const isSaid = (from: string, of: string): boolean =>
      (this.#rows.get(from) ?? []).some(({ apart }) => apart.some((id) => personOf(this.#clients, id) === of));
    return isSaid(one, other) || isSaid(other, one);
  }

  #traits(): ReadonlyMap<string, ReadonlySet<string>> {
    if (this.#byTrait) return this.#byTrait;
    const byTrait = new Map<string, Set<string>>();
    for (const client of this.#clients.values()) {
      const person = personOf(this.#clients, client.id);
      this.#rows.set(person, [...(this.#rows.get(person) ?? []), client]);
      for (const agreement of TRAITS) {
        const folded = foldedOf(agreement, client);
        if (!folded) continue;
        const key = `${agreement} ${folded}`;
        byTrait.set(key, (byTrait.get(key) ?? new Set()).add(person));
      }
    }
    this.#byTrait = byTrait;
    return byTrait;
  }
}
