/** Speaks to the service over its HTTP contract, as an integrator does. Everyone named in these tests is invented. */
import { env, exports } from "cloudflare:workers";
import { vi } from "vitest";

export const ORIGIN = "https://countback.test";
export const OPERATOR = "operator-key-of-the-tests";

export const send = (path: string, init: RequestInit = {}): Promise<Response> =>
  exports.default.fetch(
    new Request(path.startsWith("http") ? path : `${ORIGIN}${path}`, { redirect: "manual", ...init }),
  );

const withKey = (key: string, method: string, body?: unknown): RequestInit => ({
  method,
  headers: { authorization: `Bearer ${key}`, ...(body === undefined ? {} : { "content-type": "application/json" }) },
  ...(body === undefined ? {} : { body: JSON.stringify(body) }),
});

export interface TestSalon {
  readonly salon: string;
  readonly key: string;
  readonly feed: string;
}

export const MINIMAL = {
  name: "Quillfen Colour Room",
  zone: "Europe/London",
  tests: [{ route: "in-salon", protocol: "salon-48h" }],
};

export const createSalon = async (settings: unknown = MINIMAL): Promise<TestSalon> => {
  const answer = await send("/api/salons", withKey(OPERATOR, "POST", settings));
  if (answer.status !== 201) throw new Error(`no salon was made: ${answer.status} ${await answer.text()}`);
  return answer.json<TestSalon>();
};

export const ask = (key: string, method: string, path: string, body?: unknown): Promise<Response> =>
  send(path, withKey(key, method, body));

export const push = (key: string, text: BodyInit, name = "main", type = "text/calendar"): Promise<Response> =>
  send(`/api/salon/diaries/${name}`, {
    method: "PUT",
    headers: { authorization: `Bearer ${key}`, "content-type": type },
    body: text,
  });

/** The outward plan, as far as the tests look at it. */
export interface PlanSeen {
  readonly asOf: string;
  readonly booking: {
    readonly uid: string;
    readonly start: string;
    readonly service: string;
    readonly diary: string;
    readonly client: { readonly id: string; readonly name: string };
  };
  readonly route: string | null;
  readonly standing: string;
  readonly why: readonly { readonly code: string; readonly text: string }[];
  readonly steps: readonly {
    readonly uid: string;
    readonly kind: string;
    readonly n: number | null;
    readonly who: string;
    readonly opens: string;
    readonly due: string;
    readonly state: string;
  }[];
  readonly routes: readonly {
    readonly route: string;
    readonly fits: boolean;
    readonly until: string | null;
    readonly firstDue: string | null;
    readonly earliest: string | null;
  }[];
  readonly earliest: { readonly start: string; readonly route: string } | null;
}

export const plansOf = async (key: string, query = ""): Promise<readonly PlanSeen[]> =>
  (await (await ask(key, "GET", `/api/salon/plans${query}`)).json<{ plans: PlanSeen[] }>()).plans;

export const linkOf = async (key: string, client: string, renew = false): Promise<{ feed: string; page: string }> =>
  (await ask(key, "POST", `/api/salon/clients/${client}/link`, renew ? { renew: true } : undefined)).json();

export const record = (key: string, facts: unknown): Promise<Response> => ask(key, "POST", "/api/salon/records", facts);

/** The salon's object itself, for eviction and alarms. */
export const objectOf = (salon: TestSalon) => env.SALON.get(env.SALON.idFromName(salon.salon));

/** Sets the clock that the service sees; nothing else of time is faked. */
export const setClock = (text: string): void => {
  vi.useFakeTimers({ toFake: ["Date"], now: new Date(text) });
};

export interface EntryText {
  readonly uid: string;
  /** With its parameters: `DTSTART;TZID=Europe/London:20261211T103000`. */
  readonly start: string;
  readonly summary?: string;
  readonly client?: string;
  readonly email?: string;
  readonly more?: readonly string[];
}

/** A diary as text. */
export const diaryText = (entries: readonly EntryText[], head: readonly string[] = []): string =>
  [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//Quillfen//Appointment book//EN",
    ...head,
    ...entries.flatMap(({ uid, start, summary = "Root tint", client, email, more = [] }) => [
      "BEGIN:VEVENT",
      `UID:${uid}`,
      "DTSTAMP:20260101T000000Z",
      start,
      `SUMMARY:${summary}`,
      ...(client ? [`ATTENDEE;CN="${client}":mailto:${email ?? "someone@example.com"}`] : []),
      ...more,
      "END:VEVENT",
    ]),
    "END:VCALENDAR",
    "",
  ].join("\r\n");

export const MARA = { client: "Mara Quillfeather", email: "mara@example.com" };
export const WREN = { client: "Wren Tallis-Moor", email: "wren@example.com" };
