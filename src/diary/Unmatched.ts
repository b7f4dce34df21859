/** What one reading has not matched yet: bookings known of the diary, and bookings found. Only pairs; decides nothing. */
import type { KnownBooking, OwnedBooking } from "./identity.ts";

export interface Pair {
  readonly uid: string;
  readonly owned: OwnedBooking;
}

export interface Group {
  readonly known: readonly KnownBooking[];
  readonly found: readonly OwnedBooking[];
}

const byStart = (one: KnownBooking, other: KnownBooking): number =>
  one.start - other.start || one.firstSeen - other.firstSeen || (one.uid < other.uid ? -1 : 1);

const foundByStart = ({ found: one }: OwnedBooking, { found: other }: OwnedBooking): number =>
  one.start - other.start || (one.key < other.key ? -1 : 1);

export class Unmatched {
  readonly known = new Set<KnownBooking>();
  readonly found = new Set<OwnedBooking>();
  readonly pairs: Pair[] = [];

  pair(known: KnownBooking, owned: OwnedBooking): void {
    this.known.delete(known);
    this.found.delete(owned);
    this.pairs.push({ uid: known.uid, owned });
  }

  /**
   * What goes by one name on both sides, each side in order of its starts. Names are made once an item.
   * @param nameOfKnown null: this one is not meant
   */
  groups(
    nameOfKnown: (known: KnownBooking) => string | null,
    nameOfFound: (owned: OwnedBooking) => string | null,
  ): Group[] {
    if (this.known.size === 0 || this.found.size === 0) return [];
    const newcomers = Map.groupBy(this.found, nameOfFound);
    const groups = new Map<string, { known: KnownBooking[]; found: OwnedBooking[] }>();
    for (const known of this.known) {
      const name = nameOfKnown(known);
      const found = name === null ? undefined : newcomers.get(name);
      if (name === null || !found) continue;
      const group = groups.get(name);
      if (group) group.known.push(known);
      else groups.set(name, { known: [known], found });
    }
    return [...groups.values()].map(({ known, found }) => ({
      known: known.toSorted(byStart),
      found: found.toSorted(foundByStart),
    }));
  }

  /** Pairs those of one name in order of their starts: where it matters not which is which. */
  pairAlike(...names: Parameters<Unmatched["groups"]>): void {
    for (const { known, found } of this.groups(...names)) {
      for (const [place, each] of known.slice(0, found.length).entries()) this.pair(each, found[place] as OwnedBooking);
    }
  }

  /** Pairs those of one name where each side has one. */
  pairSingle(...names: Parameters<Unmatched["groups"]>): void {
    for (const { known, found } of this.groups(...names)) {
      const [one, other] = [known[0], found[0]];
      if (one && other && known.length === 1 && found.length === 1) this.pair(one, other);
    }
  }
}
