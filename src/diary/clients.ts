/**
 * Who a client is. Two entries are one client only if the name agrees and an address or a
 * telephone agrees, or neither has them. Never joins on an address alone.
 */
import { foldName } from "./foldName.ts";
import type { Instant } from "../time/instant.ts";
import type { Person } from "./types.ts";

/** A person already known, as far as recognising her goes. */
export interface KnownPerson extends Person {
  readonly id: string;
  /** Whom she turned out to be; null: she is a person of her own. */
  readonly joined?: string | null;
  /** No longer a client: nobody is recognised as her. */
  readonly erased?: Instant | null;
}

const personOf = ({ id, joined }: KnownPerson): string => joined ?? id;

/** An address as it is compared: case and outer spaces folded. */
export const foldEmail = (email: string | null): string | null => email?.trim().toLowerCase() ?? null;

/** The last nine digits of a telephone number: what is left when +44 and 0 are both gone. */
export const foldPhone = (phone: string | null): string | null => {
  const digits = phone?.replace(/\D/g, "") ?? "";
  return digits.length < 6 ? null : digits.slice(-9);
};

const agree = (left: string | null, right: string | null): boolean => left !== null && left === right;

/** Finds known people by name and address. `add` as they come: a reading meets its own newcomers too. */
export class PeopleIndex {
  readonly #byName = new Map<string, KnownPerson[]>();

  constructor(known: Iterable<KnownPerson>) {
    for (const person of known) this.add(person);
  }

  add(person: KnownPerson): void {
    if (person.erased) return;
    const name = foldName(person.name);
    const list = this.#byName.get(name);
    if (list) list.push(person);
    else this.#byName.set(name, [person]);
  }

  /** Takes in what has been learned of someone known. */
  learn(person: KnownPerson): void {
    const namesakes = this.#byName.get(foldName(person.name)) ?? [];
    const at = namesakes.findIndex(({ id }) => id === person.id);
    if (at >= 0) namesakes[at] = person;
    else this.add(person);
  }

  /**
   * The one known person this is, or undefined. An agreeing address comes before a telephone; where it could still be several,
   * nothing here tells them apart, and it is none of them.
   */
  find(person: Person): KnownPerson | undefined {
    const alike = this.#alike(person);
    return this.#areSeveral(alike) ? undefined : alike[0];
  }

  /** Whether this could be any of several people. */
  isAnyOfSeveral(person: Person): boolean {
    return this.#areSeveral(this.#alike(person));
  }

  #areSeveral(alike: readonly KnownPerson[]): boolean {
    return new Set(alike.map(personOf)).size > 1;
  }

  #alike(person: Person): readonly KnownPerson[] {
    const namesakes = this.#byName.get(foldName(person.name)) ?? [];
    const [email, phone] = [foldEmail(person.email), foldPhone(person.phone)];
    if (email === null && phone === null) {
      return namesakes.filter((known) => foldEmail(known.email) === null && foldPhone(known.phone) === null);
    }
    const byEmail = namesakes.filter((known) => agree(foldEmail(known.email), email));
    return byEmail.length > 0 ? byEmail : namesakes.filter((known) => agree(foldPhone(known.phone), phone));
  }

  /** The one known person of this name; undefined where there are several, or none. */
  onlyNamesake(person: Person): KnownPerson | undefined {
    const namesakes = this.#byName.get(foldName(person.name)) ?? [];
    return new Set(namesakes.map(personOf)).size === 1 ? namesakes[0] : undefined;
  }
}

/** Whether an address or a telephone of two people is the same. */
export const agreesWith = (known: Person, found: Person): boolean =>
  agree(foldEmail(known.email), foldEmail(found.email)) || agree(foldPhone(known.phone), foldPhone(found.phone));

/** Whether two people of one name can be one: no address and no telephone of theirs contradict each other. */
export const canBeOne = (known: Person, found: Person): boolean =>
  foldName(known.name) === foldName(found.name) && isReconcilable(known, found);

/** Whether no address and no telephone of two people contradict each other. */
export const isReconcilable = (known: Omit<Person, "name">, found: Omit<Person, "name">): boolean =>
  !contradict(foldEmail(known.email), foldEmail(found.email)) &&
  !contradict(foldPhone(known.phone), foldPhone(found.phone));

const contradict = (left: string | null, right: string | null): boolean =>
  left !== null && right !== null && left !== right;
