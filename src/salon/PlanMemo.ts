/**
 * Plans that were made, as long as nothing that they are made from has changed and no moment has come at which they would differ.
 * Only spares work: what it gives is what `planClient` would.
 */
import { EARLIEST_KEPT_SECONDS } from "../bounds.ts";
import type { Rules } from "../plan/rules.ts";
import type { Plan } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import type { Matters } from "./matters.ts";
import { planClient } from "./planClient.ts";
import type { Client } from "./types.ts";

/** How the plans of one client are made. */
export type MakePlans = typeof planClient;

interface Kept {
  readonly client: Client;
  /** What they were made from; the parts are compared one by one, since they never change themselves. */
  readonly parts: readonly unknown[];
  readonly plans: readonly Plan[];
  /** As of when they were made, and from when on they may differ. */
  readonly from: Instant;
  readonly until: Instant;
}

export class PlanMemo {
  #rules: Rules | undefined;
  readonly #kept = new Map<string, Kept>();

  readonly make: MakePlans = (client, matters, now, rules) => {
    if (rules !== this.#rules) {
      this.#kept.clear();
      this.#rules = rules;
    }
    const known = this.#kept.get(client.id);
    const parts = partsOf(matters);
    if (known && known.client === client && now >= known.from && now < known.until && isSame(known.parts, parts)) {
      return now === known.from ? known.plans : known.plans.map((plan) => ({ ...plan, asOf: now }));
    }
    const plans = planClient(client, matters, now, rules);
    this.#kept.set(client.id, { client, parts, plans, from: now, until: untilOf(plans, now) });
    return plans;
  };
}

const isSame = (one: readonly unknown[], other: readonly unknown[]): boolean =>
  one.length === other.length && one.every((part, index) => part === other[index]);

/** All that one client's plans are made from, in a list of what is compared by itself. */
const partsOf = ({ bookings, facts, carried, appointments, undecided, toldOfAnother, possibleStop }: Matters) => [
  possibleStop,
  bookings.length,
  ...bookings.flatMap((booking) => [
    booking,
    undecided.get(booking.uid) ?? null,
    toldOfAnother.has(booking.uid),
    ...(appointments.get(booking.uid) ?? []).flatMap(({ start, end }) => [start, end]),
    "/",
  ]),
  ...facts,
  "/",
  ...carried,
];

/** The earliest start that is named moves with the clock by itself. */
const untilOf = (plans: readonly Plan[], now: Instant): Instant =>
  Math.min(
    ...plans.map(({ next, earliest }) =>
      Math.min(next ?? Infinity, earliest === null ? Infinity : now + EARLIEST_KEPT_SECONDS),
    ),
  );
