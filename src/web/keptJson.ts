/** What is kept of a client, as the outward contract writes it: her export, and what an erasure leaves. */
import type { ClientExport, RequestKept } from "../salon/clientExport.ts";
import type { Erasure, KeptCase } from "../salon/erasure.ts";
import { ofHerAlone } from "../salon/herAlone.ts";
import type { Mention } from "../salon/mentions.ts";
import { formatDay, formatInstant } from "../time/instant.ts";
import { clientShownJson, deedJson, deedsFor } from "./clientJson.ts";
import { factJson, screeningJson } from "./planJson.ts";

const KEPT_WHY = {
  code: "legal-claims",
  text: "Records of skin tests, of what was seen and of who decided are kept to this instant, for legal claims: the time within which one may come, counted from the last event of the case (settings: retention.evidence).",
} as const;

const keptJson = ({ booking, records, until }: KeptCase) => ({
  booking,
  records,
  until: formatInstant(until),
  why: KEPT_WHY,
});

const mentionJson = ({ diary, uid, ahead, says }: Mention) => ({
  diary,
  uid,
  summary: says[0]?.summary ?? "",
  ahead: ahead === null ? null : formatInstant(ahead),
});

/** All that an entry says of her: the description often holds more than the title. */
const mentionInFull = (mention: Mention) => {
  const [first, ...others] = mention.says;
  return {
    ...mentionJson(mention),
    description: first?.description ?? "",
    location: first?.location ?? "",
    // Occurrences of a series that say something else.
    others,
  };
};

export const requestJson = ({ deed, longest }: RequestKept) => ({ ...deedJson(deed), longest: formatDay(longest) });

export const exportJson = ({ at, client, records, screenings, consents, tests, mentions, kept }: ClientExport) => ({
  at: formatInstant(at),
  // Who else may be she is nothing of hers.
  client: {
    ...clientShownJson(client),
    possible: undefined,
    questions: ofHerAlone(client.questions),
    decisions: deedsFor(client.deeds, client.bookings),
  },
  text: "Read this before you hand it over: a note, a reason or an entry of the diary may speak of somebody else.",
  records: records.map(({ record, correctedBy }) => ({ ...factJson(record), correctedBy })),
  screenings: screenings.map(screeningJson),
  consents: consents.map((consent) => ({ ...consent, at: formatInstant(consent.at) })),
  testsInDiary: tests.map(({ diary, name, email, phone, start, end }) => ({
    diary,
    name,
    email,
    phone,
    start: formatInstant(start),
    end: end === null ? null : formatInstant(end),
  })),
  entriesInDiary: mentions.map(mentionInFull),
  kept: kept.map(keptJson),
});

export const erasureJson = ({ client, ahead, kept }: Erasure) => ({
  client,
  erased: ahead.length === 0,
  waitsFor: ahead.map(mentionJson),
  kept: kept.map(keptJson),
  text: erasureText(ahead.length > 0, kept.length > 0),
});

const erasureText = (waits: boolean, keeps: boolean): string =>
  [
    waits
      ? "What nothing ahead needs is erased. Her name still stands in the diary, for what is listed under waitsFor: take it out there, or let it pass, and the rest goes by itself: her address, telephone, answers and links too."
      : keeps
        ? "This client is no longer one here. Her address, telephone, answers and links are erased."
        : "This client is no longer one here, and nothing is kept.",
    keeps
      ? "Her name stays with what is listed under kept, each to its date, because a legal claim may still come; it goes then by itself. DELETE with evidence=erase erases that too: ask the insurer first."
      : "",
  ]
    .filter((sentence) => sentence !== "")
    .join(" ");
