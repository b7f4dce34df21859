/**
 * The requests of real calendar clients, as they were recorded or read (tests/clients/requests.json), asked of both kinds
 * of feed: everyone gets the same iCalendar bytes, and whoever has them already gets a 304 (RFC 9110 §13, §15.4.5).
 */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import clients from "../clients/requests.json" with { type: "json" };
import { createSalon, diaryText, linkOf, MARA, plansOf, push, send, setClock, WREN } from "./client.ts";

interface ClientRequest {
  readonly method: string;
  readonly headers: Readonly<Record<string, string>>;
  /** Begins with the status that the client counts on. */
  readonly then: string;
}
interface CalendarClient {
  readonly client: string;
  readonly how: string;
  readonly requests: readonly unknown[];
}
const CLIENTS: readonly CalendarClient[] = clients;
const EVERY_REQUEST = CLIENTS.flatMap(({ client, requests }) =>
  requests.map((request, index) => ({ name: `${client}, request ${index + 1}`, request: request as ClientRequest })),
);

const ICALENDAR = "text/calendar; charset=utf-8";
/** What a 304 must repeat of the 200 (RFC 9110 §15.4.5); an ETag goes before a Last-Modified, which is sent too. */
const REPEATED = ["etag", "cache-control", "vary", "last-modified"] as const;

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

interface Plain {
  readonly address: string;
  readonly body: string;
  readonly headers: Readonly<Record<string, string | null>>;
}

/** Both feeds as a request without any header gets them. */
const plainFeeds = async (): Promise<readonly Plain[]> => {
  const { key, feed: salonFeed } = await createSalon();
  const mara = { uid: "b1", start: "DTSTART;TZID=Europe/London:20261211T103000", ...MARA };
  const wren = { uid: "b2", start: "DTSTART;TZID=Europe/London:20261218T140000", ...WREN };
  await push(key, diaryText([mara, wren]));
  const client = (await plansOf(key))[0]?.booking.client.id ?? "";
  const addresses = [salonFeed, (await linkOf(key, client)).feed];
  // The clock goes on: what was published before is asked for later.
  setClock("2026-12-01T09:30:00Z");
  return Promise.all(
    addresses.map(async (address) => {
      const answer = await send(address);
      const headers = Object.fromEntries(REPEATED.map((name) => [name, answer.headers.get(name)]));
      return { address, body: await answer.text(), headers };
    }),
  );
};

const fill = (headers: Readonly<Record<string, string>>, plain: Plain): Record<string, string> => {
  const { etag, "last-modified": modified } = plain.headers;
  const values: Readonly<Record<string, string>> = {
    "{etag}": etag ?? "",
    "{weak-etag}": `W/${etag}`,
    "{last-modified}": modified ?? "",
  };
  return Object.fromEntries(Object.entries(headers).map(([name, value]) => [name, values[value] ?? value]));
};

test("at least five clients are known by a recording or by their source", () => {
  const known = CLIENTS.filter(({ how }) => how === "recorded here" || how === "read in source");
  expect(known.length).toBeGreaterThanOrEqual(5);
  expect(EVERY_REQUEST.filter(({ request }) => request.then.startsWith("304")).length).toBeGreaterThanOrEqual(5);
});

test.each(EVERY_REQUEST)("$name is answered as it counts on, with the bytes that all get", async ({ request }) => {
  for (const plain of await plainFeeds()) {
    expect(plain.body).toContain("BEGIN:VEVENT");
    const answer = await send(plain.address, { method: request.method, headers: fill(request.headers, plain) });
    expect(String(answer.status)).toBe(/^(200|304)\b/.exec(request.then)?.[1]);
    for (const name of REPEATED) {
      expect(answer.headers.get(name)).toBe(plain.headers[name]);
      expect(plain.headers[name]).not.toBeNull();
    }
    // Compressing is left to what stands before the service, which knows what it did.
    expect(answer.headers.get("content-encoding")).toBeNull();
    expect(answer.headers.get("set-cookie")).toBeNull();
    if (answer.status === 200) expect(answer.headers.get("content-type")).toBe(ICALENDAR);
    expect(await answer.text()).toBe(answer.status === 304 || request.method === "HEAD" ? "" : plain.body);
  }
});

test.each([
  ["nothing named", undefined],
  ["the empty list", ""],
  ["anything", "*/*"],
  ["a browser's list", "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8"],
  ["both alike, jCal first", "application/calendar+json, text/calendar"],
  ["both alike by weight", "application/calendar+json;q=0.5, text/calendar;q=0.5"],
  ["iCalendar rather", "application/calendar+json;q=0.8, text/calendar"],
  ["jCal refused", "application/calendar+json;q=0, */*"],
  ["words that are no list", ";;,=/"],
])("whoever does not like jCal better gets iCalendar: %s", async (_, accept) => {
  for (const plain of await plainFeeds()) {
    const answer = await send(plain.address, accept === undefined ? {} : { headers: { accept } });
    expect([answer.status, answer.headers.get("content-type")]).toEqual([200, ICALENDAR]);
    expect(answer.headers.get("etag")).toBe(plain.headers["etag"]);
    expect(await answer.text()).toBe(plain.body);
  }
});

test("whoever likes jCal better never gets it under the ETag of iCalendar (RFC 9110 §8.8.3.3)", async () => {
  for (const plain of await plainFeeds()) {
    const answer = await send(plain.address, { headers: { accept: "application/calendar+json" } });
    expect([answer.status, answer.headers.get("vary")]).toEqual([200, "Accept"]);
    const isPlain = answer.headers.get("etag") === plain.headers["etag"];
    expect(answer.headers.get("content-type")).toMatch(isPlain ? /^text\/calendar;/ : /^application\/calendar\+json/);
    const body = await answer.text();
    expect(isPlain ? body : body.slice(0, 12)).toBe(isPlain ? plain.body : '["vcalendar"');
  }
});
