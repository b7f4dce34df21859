/**
 * One test of a salon: its protocols made one (counting.md 8), its screening and what lets an earlier result count.
 * Several protocols on one test must all hold; the strictest number of each kind decides and keeps its protocol's name.
 */
import type { Settings, TestSettings } from "../settings.ts";
import { HOUR, type Seconds } from "../time/instant.ts";
import { formatDuration } from "../time/duration.ts";
import { readDuration, readLength } from "./lengths.ts";
import { findProtocol, type Protocol, readProtocol } from "./protocol.ts";
import { PRESETS } from "./protocols.ts";
import { refusal } from "./refusal.ts";
import type { Refusals } from "./spans.ts";
import type { TestRoute } from "./types.ts";

/** A look, numbered from 1 in order of `after`. */
export interface Look {
  readonly n: number;
  readonly after: Seconds;
  readonly within: Seconds;
  /** Whether the colour waits for it (counting.md 18). */
  readonly holds: boolean;
  readonly protocol: Protocol;
}

export interface TestRule {
  readonly route: TestRoute;
  readonly from: "application" | "removal";
  readonly least: Seconds;
  readonly most: Seconds | null;
  readonly wear: Seconds | null;
  readonly removeWithin: Seconds;
  readonly looks: readonly Look[];
  /** The last look that the colour waits for. */
  readonly lastHolding: Look;
  /** From the last application that counts to B: the least lead, and the wear where the lead runs from removal. */
  readonly reach: Seconds;
  /** From the first application that counts to B; null where there is no greatest lead. */
  readonly farthest: Seconds | null;
  /** The protocols that decided the least lead, the greatest lead and the time to take it off. */
  readonly decided: { readonly least: Protocol; readonly most: Protocol | null; readonly removal: Protocol };
  readonly protocols: readonly Protocol[];
  readonly screening: { readonly margin: Seconds; readonly opens: Seconds };
  readonly onFile: Protocol["onFile"];
  readonly kit: TestSettings["kit"];
}

const MARGIN_DEFAULT: Readonly<Record<TestRoute, Seconds>> = { "in-salon": 0, "home-kit": 24 * HOUR };

const strictest = <T>(items: readonly [T, ...T[]], isStricter: (one: T, other: T) => boolean): T =>
  items.reduce((best, item) => (isStricter(item, best) ? item : best));

/**
 * Reads `settings.tests[index]`; undefined where it cannot be. What is wrong is in `refusals` then, but for the faults of
 * the salon's own protocols, which `readProtocol` tells once for all tests.
 */
export const readTestRule = (settings: Settings, index: number, refusals: Refusals): TestRule | undefined => {
  const test = settings.tests[index] as TestSettings;
  const at = `tests[${index}]`;
  const before = refusals.length;
  const protocols = readNamed(settings, test, at, refusals);
  const margin =
    test.screening.margin === undefined
      ? MARGIN_DEFAULT[test.route]
      : readDuration(test.screening.margin, `${at}.screening.margin`, refusals);
  const opens = readLength(test.screening.opens, `${at}.screening.opens`, refusals, "PT336H");
  const [first, ...others] = protocols ?? [];
  if (refusals.length > before || !first) return undefined;

  const all: readonly [Protocol, ...Protocol[]] = [first, ...others];
  refuseDisagreement(all, at, refusals);
  const byLeast = strictest(all, (one, other) => one.least > other.least);
  const limited = all.filter((protocol) => protocol.most !== null);
  const byMost = limited[0]
    ? strictest([limited[0], ...limited], (one, other) => (one.most ?? 0) < (other.most ?? 0))
    : null;
  refuseEmptyWindow(byLeast, byMost, at, refusals);
  if (refusals.length > before) return undefined;

  const byRemoval = strictest(all, (one, other) => one.removeWithin < other.removeWithin);
  const extra = first.from === "removal" ? (first.wear ?? 0) : 0;
  const reach = byLeast.least + extra;
  const most = byMost?.most ?? null;
  const looks = mergeLooks(all, reach);
  const lastHolding = looks.findLast((look) => look.holds);
  if (!lastHolding) throw new Error("a protocol without a look that holds was let through");
  return {
    route: test.route,
    from: first.from,
    least: byLeast.least,
    most,
    wear: first.wear,
    removeWithin: byRemoval.removeWithin,
    looks,
    lastHolding,
    reach,
    farthest: most === null ? null : most + extra,
    decided: { least: byLeast, most: byMost, removal: byRemoval },
    protocols: all,
    screening: { margin, opens },
    onFile: test.onFile === undefined ? onFileDefault(all) : test.onFile,
    kit: test.kit,
  };
};

/** The protocols of a test; undefined where one of the salon's own is faulty: nothing more can be said of the test then. */
const readNamed = (
  settings: Settings,
  test: TestSettings,
  at: string,
  refusals: Refusals,
): readonly Protocol[] | undefined => {
  const names = [...new Set(typeof test.protocol === "string" ? [test.protocol] : test.protocol)];
  const ofOwn: Refusals = [];
  const protocols = names.flatMap((name) => {
    const written = findProtocol(settings.protocols, name);
    const isOwn = Object.hasOwn(settings.protocols, name);
    // The salon's own are read, and refused, once for all by rules.ts; here their faults must not be told twice.
    if (written) return [readProtocol(name, written, isOwn, isOwn ? ofOwn : refusals)];
    refusals.push(
      refusal({
        code: "unknown-protocol",
        at: typeof test.protocol === "string" ? `${at}.protocol` : `${at}.protocol[${test.protocol.indexOf(name)}]`,
        value: name,
        limit: `the name of a preset (${Object.keys(PRESETS).join(", ")}) or of one of protocols`,
        reason: "nothing can be counted by a rule set that is not there",
        remedy: "name a preset or write the rule set under protocols",
      }),
    );
    return [];
  });
  return ofOwn.length > 0 ? undefined : protocols;
};

const wears = (protocol: Protocol): string =>
  protocol.wear === null ? "left on" : `worn ${formatDuration(protocol.wear)}`;

const refuseDisagreement = (all: readonly [Protocol, ...Protocol[]], at: string, refusals: Refusals): void => {
  const [first] = all;
  const other = all.find((each) => each.from !== first.from || each.wear !== first.wear);
  if (!other) return;
  refusals.push(
    refusal({
      code: "protocols-disagree",
      at: `${at}.protocol`,
      value: all.map((each) => each.name).join(", "),
      limit: "protocols that agree on lead.from and wear",
      reason: `${first.name} counts from ${first.from} (${wears(first)}), ${other.name} from ${other.from} (${wears(other)})`,
      remedy: "name one of them, or give them the same lead.from and wear",
    }),
  );
};

const refuseEmptyWindow = (byLeast: Protocol, byMost: Protocol | null, at: string, refusals: Refusals): void => {
  if (!byMost || byMost.most === null || byLeast.least <= byMost.most) return;
  refusals.push(
    refusal({
      code: "least-above-most",
      at: `${at}.protocol`,
      value: `${byLeast.name}, ${byMost.name}`,
      limit: "protocols of which no least lead exceeds another's greatest",
      reason: `${byLeast.name} asks for at least ${formatDuration(byLeast.least)}, ${byMost.name} for at most ${formatDuration(byMost.most)}`,
      remedy: "name protocols that can hold together",
    }),
  );
};

const mergeLooks = (protocols: readonly Protocol[], reach: Seconds): readonly Look[] => {
  const byAfter = new Map<Seconds, { after: Seconds; within: Seconds; protocol: Protocol }>();
  for (const protocol of protocols) {
    for (const look of protocol.looks) {
      const known = byAfter.get(look.after);
      if (!known || look.within < known.within) byAfter.set(look.after, { ...look, protocol });
    }
  }
  return [...byAfter.values()]
    .toSorted((one, other) => one.after - other.after)
    .map((look, index) => ({ ...look, n: index + 1, holds: look.after <= reach }));
};

/** All protocols must let an earlier result count, and the strictest terms hold. */
const onFileDefault = (protocols: readonly Protocol[]): Protocol["onFile"] => {
  if (protocols.some((protocol) => protocol.onFile === null)) return null;
  return protocols.reduce<Protocol["onFile"]>((terms, { onFile }) => {
    if (!terms || !onFile) return onFile;
    return {
      months: terms.months === null ? onFile.months : Math.min(terms.months, onFile.months ?? terms.months),
      product: terms.product === "same" ? "same" : onFile.product,
      shade: terms.shade === "not-darker" ? "not-darker" : onFile.shade,
    };
  }, null);
};
