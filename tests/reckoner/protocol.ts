/**
 * The test of one route with every default applied: the presets, rule 8's combining, the defaults of rules 16 and 25.
 * Never refuses anything: settings that rule 8 refuses are not given to it.
 */
import type { TestRoute } from "../../src/plan/types.ts";
import { lengthOf } from "./moments.ts";
import type { ReckonOnFile, ReckonProtocol, ReckonSettings, ReckonTest } from "./types.ts";

/** The table of counting.md, "Presets"; each row's source is named there. */
const PRESETS: { readonly [name: string]: ReckonProtocol } = {
  "salon-48h": { lead: { least: "PT48H" }, readings: [{ after: "PT48H" }] },
  "salon-45min-48h": {
    lead: { least: "PT48H", from: "removal" },
    wear: "PT45M",
    removeWithin: "PT15M",
    readings: [{ after: "PT48H45M" }],
  },
  "home-kit-120h": {
    lead: { least: "PT120H" },
    wear: "PT48H",
    removeWithin: "PT3H",
    readings: [{ after: "PT48H30M" }, { after: "PT96H" }],
  },
  "wash-off-24h": { lead: { least: "PT24H" }, wear: "PT24H", readings: [{ after: "PT24H" }] },
  "window-24-48h": { lead: { least: "PT24H", most: "PT48H" }, readings: [{ after: "PT24H" }] },
  "two-looks-48h": { lead: { least: "PT48H" }, readings: [{ after: "PT30M" }, { after: "PT48H" }] },
};

export interface Look {
  readonly n: number;
  readonly after: number;
  readonly within: number;
  /** Rule 18: it holds the colour. */
  readonly holding: boolean;
}

export interface Test {
  readonly route: TestRoute;
  readonly from: "application" | "removal";
  /** Seconds; `most` is null where there is no greatest lead. */
  readonly least: number;
  readonly most: number | null;
  readonly wear: number | null;
  readonly removeWithin: number;
  readonly looks: readonly Look[];
  readonly screeningMargin: number;
  readonly screeningOpens: number;
  readonly onFile: ReckonOnFile | null;
}

const smallest = (numbers: readonly number[]): number => Math.min(...numbers);

const looksOf = (protocols: readonly ReckonProtocol[], heldUpTo: number): Look[] => {
  const withins = new Map<number, number>();
  for (const reading of protocols.flatMap((each) => each.readings)) {
    const after = lengthOf(reading.after);
    const within = lengthOf(reading.within ?? "PT3H");
    withins.set(after, Math.min(within, withins.get(after) ?? within));
  }
  return [...withins]
    .toSorted(([left], [right]) => left - right)
    .map(([after, within], index) => ({ n: index + 1, after, within, holding: after <= heldUpTo }));
};

const onFileOf = (test: ReckonTest, names: readonly string[]): ReckonOnFile | null => {
  if (test.onFile !== undefined) return test.onFile;
  return names.includes("home-kit-120h") ? { months: null, product: "any", shade: "any" } : null;
};

/** Rule 8: one test of `tests[]`, its protocols combined. */
export const testOf = (settings: ReckonSettings, test: ReckonTest): Test => {
  const names = typeof test.protocol === "string" ? [test.protocol] : test.protocol;
  const protocols = names.map((name) => settings.protocols?.[name] ?? (PRESETS[name] as ReckonProtocol));
  const first = protocols[0] as ReckonProtocol;
  const from = first.lead.from ?? "application";
  const wear = first.wear ? lengthOf(first.wear) : null;
  const least = Math.max(...protocols.map((each) => lengthOf(each.lead.least)));
  const mosts = protocols.flatMap((each) => (each.lead.most ? [lengthOf(each.lead.most)] : []));
  return {
    route: test.route,
    from,
    least,
    most: mosts.length > 0 ? smallest(mosts) : null,
    wear,
    removeWithin: smallest(protocols.map((each) => lengthOf(each.removeWithin ?? "PT3H"))),
    looks: looksOf(protocols, least + (from === "removal" ? (wear ?? 0) : 0)),
    screeningMargin: lengthOf(test.screening?.margin ?? (test.route === "home-kit" ? "PT24H" : "PT0H")),
    screeningOpens: lengthOf(test.screening?.opens ?? "PT336H"),
    onFile: onFileOf(test, names),
  };
};

/** Seconds from the application to the clock instant of rule 8. */
export const clockShift = (test: Test): number => (test.from === "removal" ? (test.wear ?? 0) : 0);

/** Rule 8: when an application must lie so that the test counts for a colour at `start`. */
export const windowOf = (test: Test, start: number): { readonly from: number; readonly to: number } => ({
  from: test.most === null ? Number.NEGATIVE_INFINITY : start - test.most - clockShift(test),
  to: start - test.least - clockShift(test),
});
