/** What happens in a random salon: bookings as a reading of its diary finds them, and records that people tell. */
import type { FoundBooking, Person } from "../../src/diary/types.ts";
import type { Fact } from "../../src/plan/types.ts";
import type { SalonDesk } from "../../src/salon/desk.ts";
import { touch, type Work } from "../../src/salon/settle.ts";
import { NO_CIRCUMSTANCES } from "../../src/salon/types.ts";
import { DAY_SECONDS, HOUR, type Instant, MINUTE } from "../../src/time/instant.ts";
import type { Dice } from "../fuzz/Dice.ts";
import { makeFact } from "../pure/plan-arbitraries.ts";
import { hostileWords } from "./hostileWords.ts";

const BOOKINGS_MAX = 4;
const NAMES = ["Mara Quillfeather", "Wren Tallis-Moor", "Odile Brandreth", "Saoirse Ó Fennimore"];

const randomPerson = (dice: Dice, number: number): Person => ({
  name: dice.below(3) === 0 ? `${hostileWords(dice)} ${number}` : (NAMES[number % NAMES.length] as string),
  email: dice.below(4) === 0 ? null : `client${number}@example.com`,
  phone: dice.below(4) === 0 ? `+44 20 7946 00${10 + number}` : null,
});

/** Most starts lie so that a step of the plan falls into the night of the change; some are the change itself. */
const randomStart = (dice: Dice, pivot: Instant): Instant =>
  pivot +
  dice.of([0, 24, 48, 48.5, 96, 120, 144, 24 * dice.below(15)]) * HOUR +
  dice.of([0, 0, -2 * HOUR, 2 * HOUR, dice.below(96) * 15 * MINUTE - 12 * HOUR]);

/** The bookings of a first reading; of a later one, those before with some moved, some gone and some new. */
export const randomBookings = (
  dice: Dice,
  desk: SalonDesk,
  pivot: Instant,
  before: readonly FoundBooking[],
): readonly FoundBooking[] => {
  const { services } = desk.rules.settings;
  const kept = before
    .filter(() => dice.below(8) > 0)
    .map((booking) =>
      dice.below(4) > 0 ? booking : { ...booking, start: booking.start + dice.below(96) * 15 * MINUTE, end: null },
    );
  const first = before.length === 0 ? 0 : 10 * Math.ceil((before.length + 1) / 10) + dice.below(50);
  const fresh = Array.from(
    { length: before.length === 0 ? 1 + dice.below(BOOKINGS_MAX) : dice.below(2) },
    (_, index) => {
      const key = `b${first + index}`;
      const start = randomStart(dice, pivot);
      return {
        key,
        uid: key,
        recurrenceId: null,
        diary: "main",
        start,
        end: dice.of([null, start + 2 * HOUR, start + DAY_SECONDS + HOUR]),
        summary: dice.below(3) === 0 ? hostileWords(dice) : "Root tint",
        service: dice.of(services).name,
        client: randomPerson(dice, dice.below(BOOKINGS_MAX)),
      };
    },
  );
  return [...kept, ...fresh];
};

const KINDS: readonly Fact["kind"][] = [
  ...(["screened", "posted", "arrived", "applied", "removed", "read", "confirmed"] as const),
  ...(["screened", "posted", "arrived", "applied", "removed", "read", "reacted"] as const),
];

const outcomeOf = (dice: Dice, kind: Fact["kind"]): Fact["outcome"] => {
  if (kind === "screened") return dice.of(["pass", "pass", "pass", "test-needed", "do-not-colour"]);
  return kind === "read" ? dice.of(["clear", "clear", "clear", "not-sure", "reaction"]) : null;
};

/** Something told of one of the bookings, at the present moment. */
export const randomRecord = (dice: Dice, work: Work): void => {
  const uids = [...work.bookings.keys()];
  const booking = uids.length === 0 ? undefined : work.bookings.get(dice.of(uids));
  if (!booking) return;
  const kind = dice.of(KINDS);
  const fact = makeFact({
    kind,
    at: work.at,
    outcome: outcomeOf(dice, kind),
    client: booking.client,
    booking: booking.uid,
    note: dice.below(3) === 0 ? hostileWords(dice) : null,
  });
  const id = `r${work.nextFact++}`;
  work.facts.set(id, { ...fact, id, recorded: work.at, circumstances: NO_CIRCUMSTANCES, reaction: null });
  touch(work, booking.client);
};
