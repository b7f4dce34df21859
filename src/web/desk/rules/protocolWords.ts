/** A protocol in plain words, with its hours and where they come from. */
import { PRESETS } from "../../../plan/protocols.ts";
import type { ProtocolSettings } from "../../../settings.ts";
import { inWords } from "./spoken.ts";

const TITLES: Readonly<Record<string, string>> = {
  "salon-48h": "48 hours before, left on",
  "salon-45min-48h": "45 minutes on, then 48 hours before",
  "home-kit-120h": "120 hours before, worn 48 hours, two looks",
  "wash-off-24h": "24 hours before, then washed off",
  "window-24-48h": "Between 24 and 48 hours before",
  "two-looks-48h": "48 hours before, looks after 30 minutes and 48 hours",
};

export interface ProtocolWords {
  readonly name: string;
  readonly title: string;
  readonly hours: string;
  readonly source: string;
}

const listed = (parts: readonly string[]): string =>
  parts.length < 2 ? parts.join("") : `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}`;

/** What the rules ask for, one sentence each. */
export const hoursOf = ({ lead, wear, readings }: ProtocolSettings): string => {
  const most = lead.most === null ? "" : ` and at most ${inWords(lead.most)}`;
  const begins = lead.from === "removal" ? "comes off" : "goes on";
  const worn = wear === null ? "It is left on." : `It is worn for ${inWords(wear)}.`;
  const looks = listed(readings.map(({ after }) => inWords(after)));
  return `The test ${begins} at least ${inWords(lead.least)}${most} before the colour. ${worn} It is looked at after ${looks}.`;
};

const sourceOf = ({ source }: ProtocolSettings): string => {
  const title = source?.title && (source.year ? `${source.title}, ${source.year}` : source.title);
  return [title, source?.note].filter(Boolean).join("; ") || "the salon's own rule, no source given";
};

/** Presets, and the salon's own in place of a preset whose name it has taken. */
export const protocolsInWords = (own: Readonly<Record<string, ProtocolSettings>>): readonly ProtocolWords[] =>
  [...new Map([...Object.entries<ProtocolSettings>(PRESETS), ...Object.entries(own)])].map(([name, protocol]) => ({
    name,
    title: Object.hasOwn(own, name) ? `${name} (your own)` : (TITLES[name] ?? name),
    hours: hoursOf(protocol),
    source: sourceOf(protocol),
  }));
