/** The evidence of an appointment as a salon asks for it, and what is told of one. */
import { expect } from "vitest";
import { ask, MARA, record } from "./client.ts";

export const B1 = { uid: "b1", start: "DTSTART;TZID=Europe/London:20261211T103000", ...MARA };

export interface EvidenceSeen {
  readonly settings: number;
  readonly client: { readonly name: string };
  readonly booking: { readonly start: string; readonly service: string };
  readonly plan: {
    readonly standing: string;
    readonly route: string | null;
    readonly why: readonly { readonly code: string; readonly text: string }[];
  } | null;
  readonly records: readonly (Readonly<Record<string, unknown>> & { id: string; correctedBy: string | null })[];
  readonly restsOn: Readonly<Record<string, unknown>> | null;
  readonly earlier: readonly { readonly id: string }[];
  readonly stops: readonly { readonly id: string }[];
  readonly foreign: readonly { readonly id: string }[];
  readonly screenings: readonly { readonly answers: unknown; readonly version: number }[];
  readonly decisions: readonly { readonly kind: string; readonly bookings: readonly string[] }[];
  readonly until: string | null;
}

export const evidenceOf = async (key: string, booking = "b1"): Promise<EvidenceSeen> => {
  const answer = await ask(key, "GET", `/api/salon/evidence?booking=${encodeURIComponent(booking)}`);
  expect(answer.status).toBe(200);
  return answer.json();
};

export const pageOf = async (key: string, booking = "b1"): Promise<string> => {
  const answer = await ask(key, "GET", `/api/salon/evidence?booking=${encodeURIComponent(booking)}&format=html`);
  expect(answer.headers.get("content-type")).toContain("text/html");
  return (await answer.text()).replaceAll("&#39;", "'").replaceAll("&quot;", '"');
};

/** Tells it at the desk, of the first appointment; gives the record's id. */
export const tell = async (key: string, facts: Record<string, unknown>): Promise<string> => {
  const told = await record(key, { booking: "b1", via: "desk", by: "Ines", ...facts });
  expect(told.status).toBe(201);
  return (await told.json<{ id: string }>()).id;
};

/** What stands under each label, block by block. */
export const factsOf = (page: string): readonly Readonly<Record<string, string>>[] =>
  [...page.matchAll(/<dl class="facts">([^]*?)<\/dl>/g)].map(([, block = ""]) =>
    Object.fromEntries(
      [...block.matchAll(/<dt>([^]*?)<\/dt>\s*<dd>([^]*?)<\/dd>/g)].map(([, label = "", words = ""]) => [
        label,
        words
          .replaceAll("</p><p>", " | ")
          .replaceAll(/<[^>]*>/g, "")
          .trim(),
      ]),
    ),
  );
