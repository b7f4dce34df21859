/** What stands on the evidence page about each record: words for kinds and outcomes, times with their offset. */
import { type Answer, type Ground, GROUNDS, type RecordKind, type Standing } from "../plan/types.ts";
import type { RestsOn } from "../salon/evidence.ts";
import { REACTION_HEADINGS, type ReactionReport, type Recorded } from "../salon/types.ts";
import { durationInWords, lengthInWords, longTime } from "../feed/timeInWords.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import { formatOffset, HOUR, type Instant, wholeMinute } from "../time/instant.ts";
import { Zone } from "../time/zone.ts";

export const KIND_WORDS: Readonly<Record<RecordKind, string>> = {
  screened: "Health questions",
  posted: "Kit posted",
  arrived: "Kit arrived",
  applied: "Test put on",
  removed: "Test taken off",
  read: "Test looked at",
  reacted: "Something showed",
  confirmed: "Confirmed",
  route: "Way chosen",
  note: "Note",
  correction: "Correction",
};

export const OUTCOME_WORDS: Readonly<Record<string, string>> = {
  clear: "clear",
  reaction: "a reaction",
  "not-sure": "not sure",
  pass: "nothing was told against it",
  "test-needed": "a new test is needed",
  "do-not-colour": "do not colour",
};

/** Why not to colour. */
const GROUND_WORDS: Readonly<Record<Ground, string>> = {
  "under-16": "under 16",
  "past-reaction": "a past reaction",
  other: "another ground",
};

export const ANSWER_WORDS: Readonly<Record<Answer, string>> = { yes: "yes", no: "no", "not-sure": "not sure" };

export const ROUTE_WORDS: Readonly<Record<string, string>> = {
  "in-salon": "at the salon",
  "home-kit": "home kit",
  "on-file": "earlier result on file",
};

export const STANDING_WORDS: Readonly<Record<Standing, string>> = {
  "on-track": "Not due yet.",
  due: "Something is to be done.",
  late: "Something is late.",
  "no-time": "No time is left for a test.",
  ready: "Ready.",
  stop: "Stopped.",
  past: "Past.",
  cancelled: "Called off.",
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
  useStopped: "Whether use was stopped",
  firstSymptomAfterStart: "Time from start of use to first symptom",
  firstSymptomAfterLastUse: "Time from last use to first symptom",
  signs: "Signs and symptoms",
  diagnosis: "Diagnosis",
  bodyAreas: "Areas of the body",
  seriousness:
    "Criteria of seriousness (functional incapacity, disability, hospital, birth defect, danger to life, death), or none",
  doctorConfirmed: "Confirmed by a doctor or not",
};

/** `Wed 9 Dec 2026, 10:30 +00:00`. */
export const shortZoned = (at: Instant, zoneName: string): string => {
  const zone = Zone.named(zoneName);
  if (!zone) throw new Error("a record was kept in a zone that nobody knows");
  return `${longTime(at, zone, catalogueOf("en-GB").time)} ${formatOffset(zone.offsetAt(at))}`;
};

/**
 * A person's words as they are read: what turns them round or hides them (UAX #9's overrides, controls) is shown as a mark, so that
 * paper and record say the same.
 */
export const shownWords = (text: string): string =>
  text
    .toWellFormed()
    .replace(/\r\n?/g, "\n")
    .replace(/[^\P{Cc}\n\t]|[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu, "\ufffd");

/** Why it was told: of a health question's answer its ground, else a person's words. */
export const reasonWords = ({ kind, reason }: Pick<Recorded, "kind" | "reason">): string | null => {
  const ground = kind === "screened" ? GROUNDS.find((each) => each === reason) : undefined;
  return reason === null || reason === "" ? null : ground ? GROUND_WORDS[ground] : shownWords(reason);
};

const said = (label: string, value: string | number | null): readonly string[] =>
  value === null || value === "" ? [] : [`${label}: ${shownWords(String(value))}`];

/** What a record says besides its kind, its times, its rule and who told it. */
export const detailsOf = (record: Recorded): readonly string[] => {
  const { outcome, route, product, shade, batch, site, photo, note, corrects, circumstances } = record;
  return [
    ...said("Result", outcome === null ? null : (OUTCOME_WORDS[outcome] ?? outcome)),
    ...said("Test", route === null ? null : (ROUTE_WORDS[route] ?? route)),
    ...said("Product", product),
    ...said("Depth of shade", shade),
    ...said("Batch", batch),
    ...said("Site", site),
    ...said("Picture", photo),
    ...said("Why", reasonWords(record)),
    ...said("Note", note),
    ...said("Sets aside", corrects),
    ...said("Questions", circumstances.questions === null ? null : `version ${circumstances.questions}`),
  ];
};

/** `salon-48h, 48 hours; settings 3`: its source stands below, once. */
export const ruleWords = ({ circumstances: { rule, settings } }: Recorded): string =>
  [
    [rule?.protocol, ruleLength(rule?.duration)].filter((part) => part).join(", "),
    settings === null ? "" : `settings ${settings}`,
  ]
    .filter((part) => part !== "")
    .join("; ");

export const whoWords = ({ via, by }: Pick<Recorded, "via" | "by">): string =>
  by === null ? VIA_WORDS[via] : `${shownWords(by)} ${VIA_WORDS[via]}`;

/** How much later something was told than it happened, where that is more than an hour. */
export const laterWords = ({ at, recorded }: Pick<Recorded, "at" | "recorded">): string => {
  const late = wholeMinute(recorded) - wholeMinute(at);
  return late > HOUR ? `${lengthInWords(late, catalogueOf("en-GB").time)} later, ` : "";
};

/** The hours between two moments, to the minute. */
export const between = (from: Instant, to: Instant): string =>
  lengthInWords(wholeMinute(to) - wholeMinute(from), catalogueOf("en-GB").time);

/** `48 hours` for the duration of a rule. */
export const ruleLength = (duration: string | null | undefined): string | null =>
  durationInWords(duration ?? null, catalogueOf("en-GB").time);

/** Each rule with its source, once; rules without a protocol are named by their source alone. */
export const sourcesOf = (records: readonly Recorded[]): readonly (readonly [string, string])[] => {
  const sources = new Map<string, string>();
  for (const { circumstances } of records) {
    const { rule } = circumstances;
    if (rule?.source) sources.set(`${rule.protocol ?? "of the step"} ${rule.source}`, rule.protocol ?? "of the step");
  }
  return [...sources].map(([key, name]) => [name, key.slice(name.length + 1)]);
};

/** What was read by who told something, with the records it was told in. */
export const wordsShown = (records: readonly Recorded[]): readonly (readonly [string, string])[] => {
  const groups = Map.groupBy(records, ({ circumstances }) => circumstances.words);
  return [...groups].flatMap(([words, of]) =>
    words === null ? [] : [[of.map(({ id }) => id).join(", "), shownWords(words)] as const],
  );
};

/** The headings under which something was told, with what, and those under which nothing was. */
export const reactionLines = (
  reaction: ReactionReport,
): { readonly told: readonly (readonly [string, string])[]; readonly untold: readonly string[] } => {
  const isTold = (heading: keyof ReactionReport): boolean => (reaction[heading] ?? "") !== "";
  return {
    told: REACTION_HEADINGS.filter(isTold).map(
      (each) => [HEADING_WORDS[each], shownWords(reaction[each] ?? "")] as const,
    ),
    untold: REACTION_HEADINGS.filter((each) => !isTold(each)).map((each) => HEADING_WORDS[each]),
  };
};

/** Which earlier test an appointment rests on, and by which term it counts. */
export const restsOnWords = ({ record, route, terms }: RestsOn, zone: string, version: number): string => {
  const { id, kind, at, product, shade, circumstances } = record;
  const when = shortZoned(wholeMinute(at), circumstances.zone ?? zone);
  const counts = [
    terms.months === null ? "without a limit of time" : `for ${terms.months} month${terms.months === 1 ? "" : "s"}`,
    terms.product === "any" ? "for any product" : `for the same product (${product ? shownWords(product) : NOT_KNOWN})`,
    terms.shade === "any" ? "in any depth of shade" : `in no darker shade (${shade ?? NOT_KNOWN})`,
  ].join(", ");
  const done = kind === "applied" ? "put on" : "looked at";
  return `The test ${done} ${when} (${id}). By version ${version} of the settings a clear result of a test of this kind, ${ROUTE_WORDS[route]}, counts again ${counts}.`;
};

const NOT_KNOWN = "not recorded";
