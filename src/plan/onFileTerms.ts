/** What an earlier result must meet to count again (counting.md 25). Never asks whether it was clear. */
import { addMonths } from "../time/calendar.ts";
import type { Instant } from "../time/instant.ts";
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
