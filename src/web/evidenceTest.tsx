/** One test of an appointment: product, batch and site beside their own application, removal and looks. */
import type { FC } from "hono/jsx";
import type { ToldTest } from "../salon/toldTests.ts";
import type { Recorded } from "../salon/types.ts";
import { type Instant, wholeMinute } from "../time/instant.ts";
import { Facts } from "./evidenceFacts.tsx";
import { between, OUTCOME_WORDS, ROUTE_WORDS, ruleLength, shortZoned, shownWords, whoWords } from "./evidenceWords.ts";

interface Shown {
  readonly test: ToldTest;
  readonly zone: string;
  /** Of the appointment it was put on for; null: not known, or another's. */
  readonly start: Instant | null;
}

export const EvidenceTest: FC<Shown> = ({ test, zone, start }) => {
  const { applied, posted, removed, reads, setAside } = test;
  const when = (record: Recorded): string => shortZoned(wholeMinute(record.at), record.circumstances.zone ?? zone);
  const told = (record: Recorded): string => `${when(record)}, ${whoWords(record)}`;
  const records = [applied, posted, ...removed, ...reads].filter((record) => record !== null);
  /** From where it was told first; where that was not when the test was put on, it says so. */
  const named = (field: "product" | "shade" | "batch" | "site"): readonly string[] => {
    const record = records.find((each) => each[field] !== null && each[field] !== "");
    if (!record) return [];
    const from = record.kind === "applied" ? "" : ` (${TOLD_WHEN[record.kind] ?? "told"} ${when(record)})`;
    return [`${shownWords(String(record[field]))}${from}`];
  };
  const route = records.find((each) => each.route !== null)?.route ?? (posted ? "home-kit" : null);
  const lead = applied === null ? null : leadOf(applied, start);
  return (
    <Facts
      facts={[
        { label: "Kind of test", lines: route === null ? [] : [ROUTE_WORDS[route] ?? route] },
        { label: "Product", lines: named("product") },
        { label: "Depth of shade", lines: named("shade") },
        { label: "Batch", lines: named("batch") },
        { label: "Site", lines: named("site") },
        {
          label: "Put on",
          lines: applied === null ? [] : [told(applied)],
          isSetAside: setAside.has("applied"),
        },
        { label: "Taken off", lines: removed.map(told), isSetAside: setAside.has("removed") },
        {
          label: "Looked at",
          lines: reads.map((read) => `${when(read)}: ${OUTCOME_WORDS[read.outcome ?? ""] ?? ""}, ${whoWords(read)}`),
          isSetAside: setAside.has("read"),
        },
        ...(lead === null ? [] : [{ label: "Time before", lines: [lead], isWhole: true }]),
      ]}
    />
  );
};

const TOLD_WHEN: Partial<Record<Recorded["kind"], string>> = {
  posted: "posted",
  removed: "told with the taking off,",
  read: "told with the look,",
};

/** How long before the appointment it went on, and what the rule asks for, as it was when it was told. */
const leadOf = ({ at, circumstances: { rule } }: Recorded, start: Instant | null): string | null => {
  if (start === null || at >= start) return null;
  const least = ruleLength(rule?.duration);
  const asked = least === null ? "" : `; the rule asks for at least ${least}`;
  return `The test went on ${between(at, start)} before the appointment${asked}.`;
};
