/** On a client's page: whether answers of hers are kept, and how to take the agreement back. Only where she once gave it. */
import type { FC } from "hono/jsx";
import { fill } from "../feed/fill.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import type { FeedContext } from "../feed/types.ts";
import { withdrawalWords } from "../feed/withdrawalWords.ts";
import type { ConsentHeld } from "../salon/consent.ts";
import { minuteIn } from "./minuteIn.ts";

export const KeptAnswers: FC<{ consent: ConsentHeld | null; context: FeedContext }> = ({ consent, context }) => {
  if (!consent) return null;
  const { kept } = catalogueOf(context.settings.language).questions;
  const { given, keptSince } = consent;
  const { follows, press } = withdrawalWords(context.settings.language);
  const pattern = !given ? kept.withdrawn : keptSince === null ? kept.none : kept.since;
  const when = minuteIn(given ? (keptSince ?? consent.at) : consent.at, context);
  return (
    <section>
      <h3>{kept.heading}</h3>
      <p>{fill(pattern, { when })}</p>
      <p class="small">{given ? follows : kept.followed}</p>
      {given ? (
        <form method="post" action={`${context.pageUrl ?? ""}/consent`}>
          <input type="hidden" name="consent" value="false" />
          <button type="submit" class="button quiet">
            {press}
          </button>
        </form>
      ) : null}
    </section>
  );
};
