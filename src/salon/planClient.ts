/** The plans of all of one client's bookings, earliest first, since a test still ahead may cover a later one. Pure. */
import { countBack } from "../plan/countBack.ts";
import type { Rules } from "../plan/rules.ts";
import { testAhead } from "../plan/testAhead.ts";
import type { Fact, Plan, TestAhead } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import type { Matters } from "./matters.ts";
import type { Client } from "./types.ts";

export const planClient = (client: Client, matters: Matters, now: Instant, rules: Rules): readonly Plan[] => {
  const ahead: TestAhead[] = [];
  // Under another's name a stop was told of one appointment: of her others it is a question.
  const factsOf = (uid: string): readonly Fact[] =>
    matters.carried.size === 0
      ? matters.facts
      : matters.facts.filter(({ id, booking }) => booking === uid || !matters.carried.has(id));
  return matters.bookings.map(({ uid, start, end, summary, service, diary, cancelledAt, unreadSince }) => {
    const booking = { uid, start, end, summary, service, diary, client: { id: client.id, name: client.name } };
    const plan = countBack(
      {
        booking: { ...booking, cancelled: cancelledAt !== null },
        facts: factsOf(uid),
        samePerson: client.confirmed,
        ahead: [...ahead],
        appointments: matters.appointments.get(uid) ?? [],
        unreadSince,
        toldOfAnother: matters.toldOfAnother.has(uid),
        possibleStop: matters.possibleStop,
        undecidedAt: matters.undecided.get(uid) ?? null,
        now,
      },
      rules,
    );
    const test = testAhead(plan, rules);
    if (test) ahead.push(test);
    return plan;
  });
};
