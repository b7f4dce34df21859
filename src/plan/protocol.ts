/** Reads one protocol, preset or the salon's own, into seconds. It never mixes two protocols: testRule.ts does. */
import type { ProtocolSettings, TestSettings } from "../settings.ts";
import { formatDuration } from "../time/duration.ts";
import { HOUR, type Seconds } from "../time/instant.ts";
import { readLength } from "./lengths.ts";
import { PRESETS } from "./protocols.ts";
import { refusal } from "./refusal.ts";
import type { Refusals } from "./spans.ts";

/** Time to take a test off, and to look, where a protocol does not say (counting.md, defaults). */
const WITHIN_DEFAULT: Seconds = 3 * HOUR;

export interface Protocol {
  readonly name: string;
  readonly least: Seconds;
  readonly most: Seconds | null;
  readonly from: "application" | "removal";
  readonly wear: Seconds | null;
  readonly removeWithin: Seconds;
  readonly looks: readonly { readonly after: Seconds; readonly within: Seconds }[];
  /** Title and year, else the note, else that it is the salon's own. */
  readonly source: string;
  /** What an earlier result must meet where the test does not say (counting.md 25). */
  readonly onFile: (TestSettings["onFile"] & {}) | null;
}

/** Only a rule set of the salon's own can be without: a preset has a source for every number. */
const NO_SOURCE = "the salon's own rule, no source given";

const sourceOf = (source: ProtocolSettings["source"]): string => {
  if (source?.title) return source.year ? `${source.title}, ${source.year}` : source.title;
  return source?.note || NO_SOURCE;
};

/** Every protocol a salon can name: its own first, since a name it has taken is its own. */
export const findProtocol = (
  own: Readonly<Record<string, ProtocolSettings>>,
  name: string,
): ProtocolSettings | undefined =>
  Object.hasOwn(own, name) ? own[name] : Object.hasOwn(PRESETS, name) ? PRESETS[name] : undefined;

/**
 * A protocol in seconds. Refuses what is not in exact hours (counting.md 1) or takes no time, a greatest lead below the
 * least (8), a lead from a removal that never comes, and a rule set without a look that holds the colour (18).
 */
export const readProtocol = (name: string, written: ProtocolSettings, isOwn: boolean, refusals: Refusals): Protocol => {
  const at = `protocols.${name}`;
  const before = refusals.length;
  const least = readLength(written.lead.least, `${at}.lead.least`, refusals, "PT48H");
  const most = written.lead.most === null ? null : readLength(written.lead.most, `${at}.lead.most`, refusals, "PT72H");
  const wear = written.wear === null ? null : readLength(written.wear, `${at}.wear`, refusals, "PT45M");
  const within = (text: string | undefined, field: string): Seconds =>
    text === undefined ? WITHIN_DEFAULT : readLength(text, `${at}.${field}`, refusals, "PT3H");
  const removeWithin = within(written.removeWithin, "removeWithin");
  const looks = written.readings.map((reading, index) => ({
    after: readLength(reading.after, `${at}.readings[${index}].after`, refusals, "PT48H"),
    within: within(reading.within, `readings[${index}].within`),
  }));
  const protocol: Protocol = {
    name,
    least,
    most,
    from: written.lead.from,
    wear,
    removeWithin,
    looks,
    source: sourceOf(written.source),
    onFile: isOwn ? null : (PRESETS[name]?.onFile ?? null),
  };
  if (refusals.length === before) refuseContradictions(protocol, written, at, refusals);
  return protocol;
};

const refuseContradictions = (protocol: Protocol, written: ProtocolSettings, at: string, refusals: Refusals): void => {
  if (protocol.most !== null && protocol.least > protocol.most) {
    refusals.push(
      refusal({
        code: "least-above-most",
        at: `${at}.lead.least`,
        value: written.lead.least,
        limit: `at most lead.most, ${written.lead.most}`,
        reason: "no test could be in time",
        remedy: "shorten lead.least or lengthen lead.most",
      }),
    );
  }
  if (protocol.from === "removal" && protocol.wear === null) {
    refusals.push(
      refusal({
        code: "removal-without-wear",
        at: `${at}.wear`,
        value: null,
        limit: "a length in exact hours, such as PT45M, where lead.from is removal",
        reason: "a test that stays on is never taken off",
        remedy: "write wear, or count the lead from application",
      }),
    );
  }
  const reach = protocol.least + (protocol.from === "removal" ? (protocol.wear ?? 0) : 0);
  if (!protocol.looks.some((look) => look.after <= reach)) {
    refusals.push(
      refusal({
        code: "no-holding-look",
        at: `${at}.readings`,
        value: written.readings.map((reading) => reading.after).join(", ") || null,
        limit: "a list with at least one look that the colour can wait for",
        reason: "without it nobody would look at the test before the colour",
        remedy: `add a look whose after is at most ${formatDuration(reach)}`,
      }),
    );
  }
};
