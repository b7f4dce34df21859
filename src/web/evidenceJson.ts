/** The evidence of one appointment, as the outward contract writes it. */
import type { Evidence, EvidenceRecord, RestsOn } from "../salon/evidence.ts";
import { formatInstant } from "../time/instant.ts";
import { deedJson } from "./clientJson.ts";
import { restsOnWords } from "./evidenceWords.ts";
import { factJson, planJson, screeningJson } from "./planJson.ts";

const recordJson = ({ record, correctedBy }: EvidenceRecord) => ({ ...factJson(record), correctedBy });

const restsOnJson = (on: RestsOn, { settings, version }: Evidence) => ({
  record: on.record.id,
  at: formatInstant(on.record.at),
  route: on.route,
  terms: on.terms,
  text: restsOnWords(on, settings.zone, version),
});

export const evidenceJson = (evidence: Evidence) => {
  const { appointment, settings, plan } = evidence;
  return {
    at: formatInstant(evidence.at),
    /** The version of the settings by which the plan is reckoned. */
    settings: evidence.version,
    salon: { name: settings.name, zone: settings.zone, contact: settings.contact },
    client: evidence.client,
    booking: {
      uid: evidence.booking,
      start: appointment && formatInstant(appointment.start),
      end: appointment?.end ? formatInstant(appointment.end) : null,
      service: appointment?.service ?? null,
      summary: appointment?.summary ?? null,
      diary: appointment?.diary ?? null,
      cancelled: appointment?.cancelledAt ? formatInstant(appointment.cancelledAt) : null,
    },
    plan: plan && planJson(plan),
    records: evidence.records.map(recordJson),
    foreign: evidence.foreign.map(({ id, recorded }) => ({ id, recorded: formatInstant(recorded) })),
    restsOn: evidence.restsOn && restsOnJson(evidence.restsOn, evidence),
    earlier: evidence.earlier.map(recordJson),
    stops: evidence.stops.map(recordJson),
    screenings: evidence.screenings.map(screeningJson),
    consents: evidence.consents.map((consent) => ({ ...consent, at: formatInstant(consent.at) })),
    decisions: evidence.decisions.map(deedJson),
    until: evidence.until === null ? null : formatInstant(evidence.until),
  };
};
