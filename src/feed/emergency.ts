/**
 * The words for an emergency and for a test that shows something. Fixed: they are the same in every language file, depend
 * on no date, and stand in every event and on every page of a client. Not for translators.
 */

export interface EmergencyNumber {
  /** What to dial, or null where it is not known: the words then say "your local emergency number". */
  readonly number: string | null;
  readonly source: string;
}

const MEMBERS_OF_THE_EU = [
  "AT",
  "BE",
  "BG",
  "HR",
  "CY",
  "CZ",
  "DK",
  "EE",
  "FI",
  "FR",
  "DE",
  "GR",
  "HU",
  "IE",
  "IT",
  "LV",
  "LT",
  "LU",
  "MT",
  "NL",
  "PL",
  "PT",
  "RO",
  "SK",
  "SI",
  "ES",
  "SE",
];

/** ISO 3166 country → number. Every other country is unknown, never guessed. */
const NUMBERS: ReadonlyMap<string, EmergencyNumber> = new Map([
  ["GB", { number: "999", source: "Anaphylaxis UK, What to do in an emergency; MHRA campaign text, 17 July 2023" }],
  ["AU", { number: "000", source: "published sources, none of them named" }],
  ["US", { number: "911", source: "from memory" }],
  ["CA", { number: "911", source: "from memory" }],
  ["JP", { number: "119", source: "from memory" }],
  ["KR", { number: "119", source: "from memory" }],
  ...MEMBERS_OF_THE_EU.map((country): [string, EmergencyNumber] => [
    country,
    { number: "112", source: "published sources; Directive (EU) 2018/1972, Article 109, from memory" },
  ]),
]);

/** Countries of which the number is known. */
export const KNOWN_COUNTRIES: readonly string[] = [...NUMBERS.keys()];

const UNKNOWN: EmergencyNumber = { number: null, source: "no country is set, or none of its numbers is known" };

/** The emergency number of a country (two letters of ISO 3166, or null) with its source. */
export const emergencyNumber = (country: string | null): EmergencyNumber => NUMBERS.get(country ?? "") ?? UNKNOWN;

const BEFORE_NUMBER = "Trouble breathing, swelling of the face, lips or tongue, or feeling faint: call ";
const AFTER_NUMBER =
  " now and say anaphylaxis. Lie down; sit up if breathing is hard. Do not stand or walk. Use your adrenaline pen if you have one. Do not wait for the salon.";

/** The fixed words of every client page and every client event. */
export const emergencyWords = (country: string | null): string =>
  `${BEFORE_NUMBER}${emergencyNumber(country).number ?? "your local emergency number"}${AFTER_NUMBER}`;

/** The fixed words that answer a client who has told that something shows. */
export const somethingShowsWords = (phone: string | null): string =>
  `Take the test off and wash the place with water. Do not colour your hair. This is saved; nobody may read it before the salon opens, so telephone ${phone ?? "the salon"} then. Ask a pharmacist or doctor.`;

/** The emergency paragraph of a description, or nothing: what stays when all else an event says is withdrawn. */
export const keepEmergencyWords = (description: string): string =>
  description
    .split("\n\n")
    .find((paragraph) => paragraph.startsWith(BEFORE_NUMBER) && paragraph.endsWith(AFTER_NUMBER)) ?? "";
