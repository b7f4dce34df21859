/** A client's way through her questions, over HTTP. Everyone named here is invented. */
import { ask, createSalon, diaryText, linkOf, MARA, MINIMAL, plansOf, push, send, type TestSalon } from "./client.ts";

export interface Questions {
  readonly version: number;
  readonly consent: string;
  readonly questions: readonly {
    readonly id: string;
    readonly text: string;
    readonly yes: string;
    readonly source: string;
  }[];
}

export interface ScreeningSeen {
  readonly id: string;
  readonly client: string;
  readonly booking: string;
  readonly at: string;
  readonly version: number;
  readonly questions: Questions["questions"];
  readonly answers: Readonly<Record<string, string>> | null;
  readonly withdrawn: string | null;
  readonly outcome: string | null;
  readonly records: readonly string[];
  readonly via: string;
}

export interface RecordSeen {
  readonly id: string;
  readonly kind: string;
  readonly booking: string | null;
  readonly outcome: string | null;
  readonly reason: string | null;
  readonly at: string;
  readonly via: string;
}

export const entryOf = (uid: string, start: string, who = MARA) => ({
  uid,
  start: `DTSTART;TZID=Europe/London:${start}`,
  ...who,
});

export interface Asked extends TestSalon {
  /** Of her page; her questions stand at `/screening` under it. */
  readonly page: string;
  readonly client: string;
}

/** A salon with one client, whose colours are on the given days of December 2026 at 10:30. */
export const askClient = async (
  days: readonly number[] = [11],
  settings: Readonly<Record<string, unknown>> = {},
): Promise<Asked> => {
  const salon = await createSalon({ ...MINIMAL, contact: { phone: "01632 960 155" }, country: "GB", ...settings });
  await push(
    salon.key,
    diaryText(days.map((day, index) => entryOf(`b${index + 1}`, `202612${String(day).padStart(2, "0")}T103000`))),
  );
  const client = (await plansOf(salon.key))[0]?.booking.client.id ?? "";
  return { ...salon, client, page: client && (await linkOf(salon.key, client)).page };
};

export const getQuestions = async (page: string): Promise<Questions> => (await send(`${page}/screening`)).json();

/** An answer to every question: no, but for those given. */
export const answersTo = (
  { questions }: Questions,
  given: Readonly<Record<string, string>> = {},
): Record<string, string> => Object.fromEntries(questions.map(({ id }) => [id, given[id] ?? "no"]));

export const post = (address: string, body: unknown): Promise<Response> =>
  send(address, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body) });

/** Answers every question as asked now. */
export const answer = async (
  page: string,
  given: Readonly<Record<string, string>> = {},
  more: Readonly<Record<string, unknown>> = {},
): Promise<Response> => {
  const asked = await getQuestions(page);
  return post(`${page}/screening`, {
    version: asked.version,
    consent: true,
    answers: answersTo(asked, given),
    ...more,
  });
};

export const press = (address: string, fields: Readonly<Record<string, string>>): Promise<Response> =>
  send(address, { method: "POST", body: new URLSearchParams(fields) });

export const screeningsOf = async (key: string, query = ""): Promise<readonly ScreeningSeen[]> =>
  (await (await ask(key, "GET", `/api/salon/screenings${query}`)).json<{ screenings: ScreeningSeen[] }>()).screenings;

export const recordsOf = async (key: string): Promise<readonly RecordSeen[]> =>
  (await (await ask(key, "GET", "/api/salon/records")).json<{ records: RecordSeen[] }>()).records;
