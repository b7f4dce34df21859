/** What stands on the evidence page about each record: words for kinds and outcomes, times with their zone and offset. */
import type { RecordKind } from "../plan/types.ts";
import { longTime } from "../feed/timeInWords.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import { REACTION_HEADINGS, type ReactionReport, type Recorded } from "../salon/types.ts";
import { formatOffset, type Instant } from "../time/instant.ts";
import { Zone } from "../time/zone.ts";

export const KIND_WORDS: Readonly<Record<RecordKind, string>> = {
  screened: "Health questions",
  posted: "Kit posted",
  arrived: "Kit arrived",
  applied: "Test put on",
  removed: "Test taken off",
  read: "Test looked at",
  reacted: "Something showed",
  confirmed: "Confirmed by the salon",
  route: "Way chosen",
  note: "Note",
  correction: "Correction",
};

const OUTCOME_WORDS: Readonly<Record<string, string>> = {
  clear: "clear",
  reaction: "a reaction",
  "not-sure": "not sure",
  pass: "no ground against it was told",
  "test-needed": "a new test is needed",
  "do-not-colour": "do not colour",
};

const ROUTE_WORDS: Readonly<Record<string, string>> = {
  "in-salon": "at the salon",
  "home-kit": "home kit",
  "on-file": "earlier result on file",
};

const VIA_WORDS: Readonly<Record<Recorded["via"], string>> = {
  desk: "at the desk",
  "client-link": "by the client's own link",
  api: "by a program of the salon",
};

/** The United Kingdom's headings for a serious undesirable effect of a cosmetic. */
export const HEADING_WORDS: Readonly<Record<(typeof REACTION_HEADINGS)[number], string>> = {
  productName: "Full name of the product",
  company: "Company",
  batchNumber: "Batch number",
  firstUse: "Date of first use",
  frequency: "Frequency of use",
  professionalUse: "Professional use",
  applicationSite: "Site of application",
  useStopped: "Use stopped",
  firstSymptomAfterStart: "Time from first use to first symptom",
  firstSymptomAfterLastUse: "Time from last use to first symptom",
  signs: "Signs and symptoms",
  diagnosis: "Diagnosis",
  bodyAreas: "Areas of the body",
  seriousness: "Why it is serious",
  doctorConfirmed: "Confirmed by a doctor",
};

/** `Wed 9 Dec 2026, 10:30 (Europe/London, +00:00)`: seconds are kept in the record. */
export const zonedTime = (at: Instant, zoneName: string): string => {
  const zone = Zone.named(zoneName);
  if (!zone) throw new Error("a record was kept in a zone that nobody knows");
  return `${longTime(at, zone, catalogueOf("en-GB").time)} (${zoneName}, ${formatOffset(zone.offsetAt(at))})`;
};

const said = (label: string, value: string | number | null): readonly string[] =>
  value === null || value === "" ? [] : [`${label}: ${value}`];

/** What a record says besides its kind, its times and who told it. */
export const detailsOf = (record: Recorded): readonly string[] => {
  const { outcome, route, product, shade, batch, site, photo, reason, note, corrects, circumstances } = record;
  const { rule, questions, settings, words } = circumstances;
  return [
    ...said("Result", outcome === null ? null : (OUTCOME_WORDS[outcome] ?? outcome)),
    ...said("Test", route === null ? null : (ROUTE_WORDS[route] ?? route)),
    ...said("Product", product),
    ...said("Depth of shade", shade),
    ...said("Batch", batch),
    ...said("Site", site),
    ...said("Picture", photo),
    ...said("Why", reason),
    ...said("Note", note),
    ...said("Sets aside record", corrects),
    ...said("Rule", rule && [rule.protocol, rule.duration, rule.source].filter((part) => part !== null).join(", ")),
    ...said("Questions", questions === null ? null : `version ${questions}`),
    ...said("Words shown", words),
    ...said("Settings", settings === null ? null : `version ${settings}`),
  ];
};

export const viaWords = ({ via, by }: Pick<Recorded, "via" | "by">): string =>
  by === null ? VIA_WORDS[via] : `${by}, ${VIA_WORDS[via]}`;

/** The headings under which something is known. */
export const reactionLines = (reaction: ReactionReport | null): readonly (readonly [string, string])[] =>
  REACTION_HEADINGS.flatMap((heading) => {
    const told = reaction?.[heading] ?? null;
    return told === null ? [] : [[HEADING_WORDS[heading], told] as const];
  });
