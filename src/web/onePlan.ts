/** A count-back as the front door asks for it: one start, one test by its preset's name. What is said of it speaks of "the salon". */
import { clientContext } from "./clientContext.ts";
import { type Counted, countOne, NAMESPACE } from "./countOne.ts";
import type { AnyFault } from "./problems.ts";
import type { FeedContext } from "../feed/types.ts";
import { formatInstant, type Instant } from "../time/instant.ts";

export interface OneAsked {
  readonly start: Instant;
  /** Null: UTC. */
  readonly zone: string | null;
  /** A preset's name; null: a kit sent home or else a test at the salon, whichever fits. */
  readonly test: string | null;
  /** For public holidays and the emergency number. */
  readonly country: string | null;
}

export interface OnePlan extends Counted {
  readonly context: FeedContext;
}

/** Presets that are put on at home; all others are put on at the salon. */
const AT_HOME: readonly string[] = ["home-kit-120h"];

export const countFor = async (
  { start, zone, test, country }: OneAsked,
  now: Instant,
): Promise<{ readonly ok: true; readonly value: OnePlan } | { readonly ok: false; readonly fault: AnyFault }> => {
  const tests =
    test === null ? {} : { tests: [{ route: AT_HOME.includes(test) ? "home-kit" : "in-salon", protocol: test }] };
  const request = {
    start: formatInstant(start),
    ...(zone === null ? {} : { zone }),
    settings: { name: "the salon", country, ...tests },
    records: [],
    // Two files about two appointments are taken into one calendar: their events are not each other's.
    uid: [formatInstant(start), test ?? "any"].join(" "),
  };
  const counted = await countOne(request, start, now);
  if (!counted.ok) return counted;
  const context = { ...clientContext(NAMESPACE, counted.value.settings, ""), pageUrl: null };
  return { ok: true, value: { ...counted.value, context } };
};
