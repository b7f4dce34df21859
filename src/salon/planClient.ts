/** The plans of all of one client's bookings, earliest first, since a test still ahead may cover a later one. Pure. */
import { countBack } from "../plan/countBack.ts";
import type { Rules } from "../plan/rules.ts";
import { testAhead } from "../plan/testAhead.ts";
import type { Fact, Plan, TestAhead } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import type { Booking, Client } from "./types.ts";

/** @param bookings every booking of the client, in any order */
export const planClient = (
  client: Client,
  bookings: readonly Booking[],
  facts: readonly Fact[],
  now: Instant,
  rules: Rules,
): readonly Plan[] => {
  const ahead: TestAhead[] = [];
  return [...bookings]
    .sort((a, b) => a.start - b.start || (a.uid < b.uid ? -1 : 1))
    .map(({ uid, start, end, summary, service, diary, cancelledAt }) => {
      const booking = { uid, start, end, summary, service, diary, client: { id: client.id, name: client.name } };
      const plan = countBack(
        {
          booking: { ...booking, cancelled: cancelledAt !== null },
          facts,
          samePerson: client.confirmed,
          ahead: [...ahead],
          now,
        },
        rules,
      );
      const test = testAhead(plan, rules);
      if (test) ahead.push(test);
      return plan;
    });
};
