/**
 * The preset protocols as named data, each number with its source. Nothing here computes, and no number is a
 * recommendation: the product's or kit's own instructions, the insurer and local rules win.
 */
import type { ProtocolSettings, TestSettings } from "../settings.ts";

export interface Preset extends ProtocolSettings {
  /** Where each number comes from, by the field it stands in. */
  readonly numbers: Readonly<Record<string, string>>;
  /** What an earlier clear result must meet to count again (counting.md 25); null: every colour needs a new test. */
  readonly onFile: NonNullable<TestSettings["onFile"]> | null;
}

const COMMON_PRACTICE = "common practice, no source";
const INDUSTRY_48H =
  'colourwell-colourwise.eu, "How to do the 48 hour Allergy Alert Test?": at least a full 48 hours before';
const NOT_DECIDED = "not stated by the source; a default of this service";

/** The six presets of counting.md. */
export const PRESETS: Readonly<Record<string, Preset>> = {
  "salon-48h": {
    lead: { least: "PT48H", most: null, from: "application" },
    wear: null,
    readings: [{ after: "PT48H" }],
    source: {
      title: "How to do the 48 hour Allergy Alert Test? (colourwell-colourwise.eu)",
      note: 'also NHBF, "Allergy alert testing", and FDA, "Cosmetics Safety Q&A: Hair Dyes"',
    },
    numbers: {
      "lead.least": `${INDUSTRY_48H}; NHBF: no less than 48 hours`,
      wear: "FDA, Cosmetics Safety Q&A: Hair Dyes: leave it there for two days",
      "readings[0].after": INDUSTRY_48H,
    },
    onFile: null,
  },
  "salon-45min-48h": {
    lead: { least: "PT48H", most: null, from: "removal" },
    wear: "PT45M",
    removeWithin: "PT15M",
    readings: [{ after: "PT48H45M" }],
    source: {
      title: "Cosmetics Europe Recommendation No 27, as reported by CTPA",
      year: 2023,
      note: "which instant starts the 48 hours is not stated; the later one is taken",
    },
    numbers: {
      "lead.least": "CTPA news, 26 April 2023: if no reaction within 48 hours, may colour",
      wear: "CTPA news, 26 April 2023: leave 45 minutes",
      removeWithin: NOT_DECIDED,
      "readings[0].after": "48 hours after the 45 minutes: the later of the two starts the source leaves open",
    },
    onFile: null,
  },
  "home-kit-120h": {
    lead: { least: "PT120H", most: null, from: "application" },
    wear: "PT48H",
    removeWithin: "PT3H",
    readings: [{ after: "PT48H30M" }, { after: "PT96H" }],
    source: { note: COMMON_PRACTICE },
    numbers: {
      "lead.least": COMMON_PRACTICE,
      wear: COMMON_PRACTICE,
      removeWithin: COMMON_PRACTICE,
      "readings[0].after": COMMON_PRACTICE,
      "readings[1].after": COMMON_PRACTICE,
    },
    onFile: { months: null, product: "any", shade: "any" },
  },
  "wash-off-24h": {
    lead: { least: "PT24H", most: null, from: "application" },
    wear: "PT24H",
    readings: [{ after: "PT24H" }],
    source: {
      title: "Cosmetic Regulations, C.R.C. c. 869, s. 22",
      year: 2006,
      note: 'historical version; also Health Canada, "Hair dyes"',
    },
    numbers: {
      "lead.least": 'Health Canada, "Hair dyes": 24 hours',
      wear: "C.R.C. c. 869, s. 22 (2006): after 24 hours the area should be washed",
      "readings[0].after": "C.R.C. c. 869, s. 22 (2006)",
    },
    onFile: null,
  },
  "window-24-48h": {
    lead: { least: "PT24H", most: "PT48H", from: "application" },
    wear: null,
    readings: [{ after: "PT24H" }],
    source: { title: "Ohio Administrative Code 4709-9-12", year: 2013 },
    numbers: {
      "lead.least": "OAC 4709-9-12: twenty-four to forty-eight hours prior",
      "lead.most": "OAC 4709-9-12: twenty-four to forty-eight hours prior",
      "readings[0].after": "OAC 4709-9-12: the shortest lead it allows",
    },
    onFile: null,
  },
  "two-looks-48h": {
    lead: { least: "PT48H", most: null, from: "application" },
    wear: null,
    readings: [{ after: "PT30M" }, { after: "PT48H" }],
    source: { title: "Japan Hair Color Industry Association, skin test page (jhcia.org, 4_patchtest)" },
    numbers: {
      "lead.least": "JHCIA, 4_patchtest: from 48 hours before, every time",
      "readings[0].after": "JHCIA, 4_patchtest: about 30 minutes after applying",
      "readings[1].after": "JHCIA, 4_patchtest: 48 hours after applying",
    },
    onFile: null,
  },
};
