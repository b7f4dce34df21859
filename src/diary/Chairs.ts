/**
 * A booking that changes diaries: the same key in another one, of the same client. Whichever diary is read first, it stays
 * one booking under its first identity. Decides only.
 */
import type { KnownBooking } from "./identity.ts";
import type { Unmatched } from "./Unmatched.ts";

export class Chairs {
  readonly #others: () => ReadonlyMap<string, readonly KnownBooking[]>;
  readonly #isRecorded: (uid: string) => boolean;
  readonly #taken = new Set<KnownBooking>();

  /** @param known every booking of the salon */
  constructor(diary: string, known: readonly KnownBooking[], isRecorded: (uid: string) => boolean) {
    let others: ReadonlyMap<string, readonly KnownBooking[]> | undefined;
    this.#others = () =>
      (others ??= Map.groupBy(
        known.filter((each) => each.diary !== diary),
        entryOf,
      ));
    this.#isRecorded = isRecorded;
  }

  /**
   * What left another diary before it came here, or left this one and is back: of several, what left last.
   * @param hereOf what is known of this diary under a key
   */
  takeOver(open: Unmatched, hereOf: (key: string) => KnownBooking | undefined): void {
    for (const owned of open.found) {
      const { key } = owned.found;
      const here = hereOf(key);
      const alike = this.#others().get(entryOf({ key, client: owned.client })) ?? [];
      const gone = (here?.client === owned.client ? [here, ...alike] : alike)
        .filter((each) => each.cancelledAt !== null && !this.#taken.has(each))
        .reduce<KnownBooking | undefined>((last, each) => (last && isGoneBefore(each, last) ? last : each), undefined);
      if (!gone) continue;
      this.#taken.add(gone);
      open.pair(gone, owned);
    }
  }

  /**
   * The copy that came to another diary before `gone` left this one. Not one that is the elder, nor one of which something
   * was told: those stay what they are.
   */
  copyOf(gone: KnownBooking): KnownBooking | undefined {
    const copies = (this.#others().get(entryOf(gone)) ?? []).filter(
      (each) => each.cancelledAt === null && isElder(gone, each) && !this.#isRecorded(each.uid),
    );
    const copy = copies
      .filter((each) => !this.#taken.has(each))
      .reduce<KnownBooking | undefined>((eldest, each) => (eldest && isElder(eldest, each) ? eldest : each), undefined);
    if (copy) this.#taken.add(copy);
    return copy;
  }
}

const isGoneBefore = (one: KnownBooking, other: KnownBooking): boolean =>
  one.cancelledAt === other.cancelledAt ? isElder(other, one) : (one.cancelledAt ?? 0) < (other.cancelledAt ?? 0);

const entryOf = ({ key, client }: Pick<KnownBooking, "key" | "client">): string => `${client}\n${key}`;

/** Which of two was known first; of two first seen in the same second, the one not named after its diary. */
export const isElder = (one: KnownBooking, other: KnownBooking): boolean => {
  if (one.firstSeen !== other.firstSeen) return one.firstSeen < other.firstSeen;
  if (isPrefixed(one) !== isPrefixed(other)) return isPrefixed(other);
  return one.uid < other.uid;
};

const isPrefixed = ({ uid, key }: KnownBooking): boolean => uid !== key && uid.endsWith(`/${key}`);
