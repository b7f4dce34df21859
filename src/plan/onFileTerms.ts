/** What an earlier result must meet to count again (counting.md 25). Never asks whether it was clear. */
import { type Day, dayFrom, type Instant, partsOfDay } from "../time/instant.ts";
import { isReaction, type Ledger } from "./ledger.ts";
import type { Rules } from "./rules.ts";
import type { TestRule } from "./testRule.ts";
import type { BookingFacts } from "./types.ts";

/** Which of the terms an earlier result fails. */
export type TermFault = "too-old" | "other-product" | "darker-shade" | "asked-anew" | "lead-too-short";

/** Null where an earlier application meets the test's terms for a booking, else the first term it fails. */
export const meetsTerms = (
  test: TestRule,
  application: Instant,
  tested: { readonly product: string | null; readonly shade: number | null },
  booking: BookingFacts,
  ledger: Ledger,
  rules: Rules,
): TermFault | null => {
  const terms = test.onFile;
  if (!terms) throw new Error(`${test.route} has no terms for an earlier result`);
  if (application + test.reach > booking.start) return "lead-too-short";
  const isAnew = ledger.live.some(
    (fact) =>
      fact.at > application && (isReaction(fact) || (fact.kind === "screened" && fact.outcome === "test-needed")),
  );
  if (isAnew) return "asked-anew";
  if (terms.months !== null) {
    const last = addMonths(rules.zone.dayAt(application), terms.months);
    if (rules.zone.dayAt(booking.start) > last) return "too-old";
  }
  const planned = rules.settings.services.find((service) => service.name === booking.service);
  if (terms.product === "same" && !isSame(planned?.product, tested.product)) return "other-product";
  // Depth 1 is the darkest: a planned depth below the tested one is darker. Unknown is never "not darker".
  if (terms.shade === "not-darker" && !((planned?.shade ?? -1) >= (tested.shade ?? Infinity))) return "darker-shade";
  return null;
};

const isSame = (planned: string | null | undefined, tested: string | null): boolean =>
  !!planned && !!tested && planned.trim().toLowerCase() === tested.trim().toLowerCase();

/** The same day of a later month, or that month's last day (TC39 Temporal, plaindate: 31 January + 1 month is 28 February). */
export const addMonths = (day: Day, months: number): Day => {
  const { year, month, dayOfMonth } = partsOfDay(day);
  const index = year * 12 + (month - 1) + months;
  const [toYear, toMonth] = [Math.floor(index / 12), (index % 12) + 1];
  for (let last = dayOfMonth; last > 0; last--) {
    const found = dayFrom(toYear, toMonth, last);
    if (found !== undefined) return found;
  }
  throw new Error(`no day in month ${toMonth} of ${toYear}`);
};
