/**
 * Who comes to the salon: invented women, and under which names and addresses the diaries write them. Some share an address,
 * some a name, some stand there under a bare name, and some have two names.
 */
import type { Dice } from "./Dice.ts";

/** A name with an address or a telephone, as a diary writes somebody. */
export interface Face {
  readonly name: string;
  readonly email: string | null;
  readonly phone: string | null;
  /** Whether another face has this name or this address. */
  readonly isShared: boolean;
}

export interface Woman {
  readonly faces: readonly Face[];
  readonly chair: number;
  readonly kind: "plain" | "family" | "namesake" | "bare" | "bare-shared" | "two-names";
  /** Comes no more, or is not to be counted on. */
  retired: boolean;
  /** When her last appointment was made for, in seconds. */
  last: number;
  /** She has been tested before, so that she may rely on it. */
  tested: boolean;
}

const FIRST =
  "Abra Bryony Clemency Delphine Elowen Fenella Ginevra Hesper Isolde Jocasta Keziah Linnet Merrily Nerys Ottoline Perdita Quenby Rosalba Sabra Tamsin Ursel Verity Winna Xanthe Ysolt Zephyrine".split(
    " ",
  );
const LAST =
  "Ashwick Brambledown Corvane Dunmallow Eddering Fallowby Garthing Hollincote Inglefen Jessamere Kittering Larkhollow Mossgrave Nethercombe Oxlathe Pellowick Quarrendale Ravenshaw Silverlode Thornbury-Vale Underleaf Varnecke Wildersham Yarrowfield".split(
    " ",
  );

const HOSTS = ["post.example", "mail.example", "letters.example"];

/** @param chairs how many; @param size about how many women */
export const inventPeople = (dice: Dice, chairs: number, size: number): readonly Woman[] => {
  const names = FIRST.flatMap((first) => LAST.map((last) => [first, last] as const));
  for (let at = names.length - 1; at > 0; at--) {
    const other = dice.between(0, at);
    [names[at], names[other]] = [names[other] as readonly [string, string], names[at] as readonly [string, string]];
  }
  let number = 0;
  const nextName = (last?: string): readonly [string, string] => {
    const found =
      last === undefined
        ? names.pop()
        : names.splice(
            names.findIndex((each) => each[1] === last),
            1,
          )[0];
    if (!found) throw new Error("no names are left");
    return found;
  };
  const addressOf = (): string =>
    `${dice.pick(["hello", "me", "box", "write"])}.${1000 + number++}@${dice.pick(HOSTS)}`;
  const phoneOf = (): string => `01632 9${String(10_000 + number++).padStart(5, "0")}`;
  const face = ([first, last]: readonly [string, string], more: Partial<Face> = {}): Face => ({
    name: `${first} ${last}`,
    email: null,
    phone: null,
    isShared: false,
    ...more,
  });
  const women: Woman[] = [];
  const add = (kind: Woman["kind"], faces: readonly Face[]): void => {
    const chair = dice.between(1, chairs);
    women.push({ faces, chair, kind, retired: false, last: 0, tested: false });
  };
  const times = (share: number, make: () => void): void => {
    for (let made = 0; made < Math.max(1, Math.round(size * share)); made++) make();
  };
  times(0.7, () =>
    add("plain", [face(nextName(), { email: addressOf(), phone: dice.chance(0.4) ? phoneOf() : null })]),
  );
  times(0.04, () => {
    const [mother, email] = [nextName(), addressOf()];
    const daughter = names.some(([, last]) => last === mother[1]) ? nextName(mother[1]) : nextName();
    for (const name of [mother, daughter]) add("family", [face(name, { email, isShared: true })]);
  });
  times(0.03, () => {
    const name = nextName();
    for (const email of [addressOf(), addressOf()]) add("namesake", [face(name, { email, isShared: true })]);
  });
  times(0.07, () => add("bare", [face(nextName())]));
  times(0.02, () => {
    const shared = face(nextName(), { isShared: true });
    for (const _ of [1, 2]) add("bare-shared", [shared]);
  });
  times(0.04, () => {
    const email = addressOf();
    add("two-names", [face(nextName(), { email, isShared: true }), face(nextName(), { email, isShared: true })]);
  });
  return women;
};
