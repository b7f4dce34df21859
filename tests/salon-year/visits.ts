/** What is told around one appointment: questions, test by post or at the salon, looks, confirmation, what shows afterwards. */
import { DAY, HOUR, MINUTE, type Seconds } from "./calendar.ts";
import type { Made } from "./bookings.ts";
import { answer, hostile, isOpen, report, type Said, tell } from "./telling.ts";
import type { World } from "./world.ts";

const HEADINGS = [
  "productName",
  "company",
  "batchNumber",
  "firstUse",
  "frequency",
  "professionalUse",
  "applicationSite",
  "useStopped",
  "firstSymptomAfterStart",
  "firstSymptomAfterLastUse",
  "signs",
  "diagnosis",
  "bodyAreas",
  "seriousness",
  "doctorConfirmed",
];

const reactionOf = (world: World): Record<string, string> =>
  Object.fromEntries(
    HEADINGS.filter(() => world.dice.chance(0.6))
      .concat("signs")
      .map((heading) => [heading, hostile(world)]),
  );

const testOf = (world: World, route: string): Said => ({
  kind: "applied",
  route,
  product: world.dice.pick(["line A", "line B", "=line C"]),
  shade: world.dice.between(1, 10),
  batch: world.token("lot"),
  site: world.dice.pick(["behind the left ear", "inner <elbow>", "nape"]),
});

export const planVisit = (world: World, { booking, woman }: Made): void => {
  const { dice, calendar } = world;
  const { start } = booking;
  const before = (days: number, hour: number): Seconds => calendar.at(start, -days, hour, dice.between(0, 11) * 5);
  const at = (when: Seconds, run: () => Promise<unknown>): void =>
    world.later(when, async () => {
      if (booking.cancelled === null && booking.start === start && isOpen(world, booking)) await run();
    });
  if (dice.chance(0.8)) at(before(dice.between(2, 9), 18), () => answer(world, booking));
  if (dice.chance(0.05)) at(before(1, 19), () => answer(world, booking));
  const isNoShow = dice.chance(0.04);
  const isTest = !woman.tested || dice.chance(0.3);
  if (isTest && start - world.now > 13 * DAY && dice.chance(0.35)) planKit(world, booking, start, at);
  else if (isTest) planWalkIn(world, booking, before(dice.between(3, 6), dice.between(10, 16)), at);
  if (isTest && start - world.now > 4 * DAY) woman.tested = true;
  if (dice.chance(0.1)) {
    at(before(dice.between(0, 3), 9), () =>
      tell(world, booking, { kind: "note", note: hostile(world), reason: dice.chance(0.3) ? hostile(world) : null }),
    );
  }
  if (isNoShow) return world.count("no-shows");
  const isAsked = dice.chance(0.15);
  if (isAsked)
    at(start - 20 * MINUTE, () => tell(world, booking, { kind: "screened", outcome: "pass", at: start - 20 * MINUTE }));
  if (dice.chance(0.95)) at(start - 5 * MINUTE, () => tell(world, booking, { kind: "confirmed", at: world.now }));
  if (dice.chance(0.02)) planReaction(world, booking, calendar.at(start, dice.between(1, 4), 11, 0), at);
};

type At = (when: Seconds, run: () => Promise<unknown>) => void;
type Booking = Made["booking"];

/** The look, with its result; what is not clear is sometimes set right, or tested anew. */
const look = async (world: World, booking: Booking, isByLink: boolean): Promise<void> => {
  const { dice } = world;
  const outcome = dice.weighted([
    ["clear", 91],
    ["not-sure", 5],
    ["reaction", 4],
  ]);
  const isTold = isByLink && outcome !== "reaction";
  const id = isTold
    ? await report(world, booking, { kind: "read", outcome, ...(dice.chance(0.2) ? { note: hostile(world) } : {}) })
    : await tell(world, booking, {
        kind: "read",
        outcome,
        reaction: outcome === "reaction" && dice.chance(0.7) ? reactionOf(world) : null,
      });
  if (id === null) return;
  if (dice.chance(outcome === "clear" ? 0.03 : 0.3)) {
    const when = world.now + dice.between(1, 30) * HOUR;
    world.later(when - (when % MINUTE), async () => {
      await tell(world, booking, { kind: "correction", corrects: id, reason: hostile(world) });
      world.count("corrections");
    });
  }
};

const planWalkIn = (world: World, booking: Booking, when: Seconds, at: At): void => {
  const { dice } = world;
  const isLooked = dice.chance(0.93);
  at(when, () => tell(world, booking, testOf(world, "in-salon")));
  if (dice.chance(0.2)) at(when + HOUR, () => tell(world, booking, { kind: "removed" }));
  if (isLooked) at(when + 49 * HOUR, () => look(world, booking, dice.chance(0.2)));
};

const planKit = (world: World, booking: Booking, start: Seconds, at: At): void => {
  const on = world.calendar.at(start, -7, 9, 30);
  if (world.dice.chance(0.3)) at(on - 6 * DAY, () => report(world, booking, { kind: "route", route: "home-kit" }));
  at(on - 5 * DAY, () => tell(world, booking, { kind: "posted", batch: world.token("kit") }));
  if (world.dice.chance(0.8)) at(on - 2 * DAY, () => report(world, booking, { kind: "arrived" }));
  at(on, () => report(world, booking, { kind: "applied", route: "home-kit" }));
  at(on + 48 * HOUR, () => report(world, booking, { kind: "removed" }));
  at(on + 49 * HOUR, () => look(world, booking, true));
  at(on + 97 * HOUR, () => look(world, booking, true));
};

const planReaction = (world: World, booking: Booking, when: Seconds, at: At): void => {
  const { dice } = world;
  at(when, async () => {
    const id = dice.chance(0.4)
      ? await report(world, booking, { kind: "reacted" })
      : await tell(world, booking, { kind: "reacted", reaction: dice.chance(0.8) ? reactionOf(world) : null });
    if (id !== null && dice.chance(0.4)) {
      world.later(when + dice.between(1, 9) * DAY, async () => {
        await tell(world, booking, { kind: "correction", corrects: id, reason: hostile(world) });
        world.count("corrections");
      });
    }
    if (dice.chance(0.5)) {
      world.later(when + 2 * DAY, async () => {
        await tell(world, booking, { kind: "note", note: hostile(world), reaction: { diagnosis: hostile(world) } });
      });
    }
  });
};
