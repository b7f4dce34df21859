/**
 * Random joins, splits, partings and diary changes. Whatever the order: no answer is a failure of ours, no SEQUENCE falls in any
 * feed (RFC 5545, 3.8.7.4), and a stop told of a client stops every appointment of whoever she is now. Everyone is invented.
 */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { ask, createSalon, diaryText, linkOf, plansOf, push, record, send, setClock } from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

interface ClientSeen {
  readonly id: string;
  readonly bookings: readonly { readonly uid: string }[];
}

const SETTINGS = {
  name: "Quillfen Colour Room",
  zone: "Europe/London",
  tests: [{ route: "in-salon", protocol: "salon-48h", onFile: { months: 12, product: "any", shade: "any" } }],
};
const PEOPLE = [
  { client: "Ann Brill", email: "ann@post.example" },
  { client: "Wren Tallis-Moor", email: "wren@post.example" },
  { client: "Mara Quillfeather", email: "mara@post.example" },
] as const;
/** Enough bookings that never change, so that no reading is held for what it loses. */
const OTHERS = ["26", "28", "30"].map((day) => ({
  uid: `other-${day}`,
  start: `DTSTART;TZID=Europe/London:202612${day}T103000`,
  client: "Ivo Sandmark",
  email: "ivo@post.example",
}));
const STEPS = 14;
const ACTS = ["join", "split", "apart", "move", "gone", "back", "rename"] as const;

/** Numbers from 0 to 1, the same for the same seed. */
const randomOf = (seed: number): (() => number) => {
  let state = seed;
  return () => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return state / 2_147_483_648;
  };
};

const sequencesOf = async (url: string): Promise<ReadonlyMap<string, number>> => {
  const answer = await send(url);
  expect(answer.status).toBe(200);
  const text = (await answer.text()).replaceAll("\r\n ", "");
  const events = text.split("BEGIN:VEVENT").slice(1);
  return new Map(
    events.map((event) => [/^UID:(.*)\r$/m.exec(event)?.[1] ?? "", Number(/^SEQUENCE:(\d+)/m.exec(event)?.[1] ?? 0)]),
  );
};

test.each([1, 2, 3, 4, 5, 6])(
  "whatever is decided in whatever order, nothing falls and the stop stays: %i",
  async (seed) => {
    const { key, feed } = await createSalon(SETTINGS);
    const random = randomOf(seed * 7919);
    const pick = <Item>(items: readonly Item[]): Item => items[Math.floor(random() * items.length)] as Item;
    const entries = [0, 0, 1, 2].map((person, n) => ({ uid: `b${n + 1}`, day: 11 + 3 * n, person, stands: true }));
    const text = (): string =>
      diaryText([
        ...entries
          .filter(({ stands }) => stands)
          .map(({ uid, day, person }) => ({
            uid,
            start: `DTSTART;TZID=Europe/London:202612${day}T103000`,
            ...PEOPLE[person],
          })),
        ...OTHERS,
      ]);
    const list = async (query = ""): Promise<readonly ClientSeen[]> =>
      (await (await ask(key, "GET", `/api/salon/clients${query}`)).json<{ clients: ClientSeen[] }>()).clients;
    const show = async (id: string): Promise<ClientSeen> => (await ask(key, "GET", `/api/salon/clients/${id}`)).json();
    const decide = async (act: string, id: string, body: unknown): Promise<number> =>
      (await ask(key, "POST", `/api/salon/clients/${id}/${act}`, body)).status;

    await push(key, text());
    const stopped = (await list("?q=ann"))[0]?.id ?? "";
    const told = await record(key, { client: stopped, kind: "reacted", at: "2026-11-20T10:00:00Z" });
    expect(told.status).toBe(201);
    const feeds = new Map([["salon", feed]]);
    const highest = new Map<string, number>();
    for (let step = 0; step < STEPS; step++) {
      setClock(new Date(Date.UTC(2026, 11, 1, 9, step + 1)).toISOString());
      const act = pick(ACTS);
      const clients = await list();
      const one = pick(clients);
      const entry = pick(entries);
      let status = 200;
      if (act === "join" || act === "apart") status = await decide(act, one.id, { with: pick(clients).id });
      else if (act === "split") {
        const { bookings } = await show(one.id);
        if (bookings.length > 0) status = await decide(act, one.id, { bookings: [pick(bookings).uid] });
      } else {
        if (act === "move") entry.day = 10 + Math.floor(random() * 15);
        else if (act === "rename") entry.person = Math.floor(random() * PEOPLE.length);
        else entry.stands = act === "back";
        status = (await push(key, text())).status;
      }
      // 409 or 422: told apart from herself. 202: a reading that waits to be seen again.
      expect([act, status]).toEqual([act, expect.toBeOneOf([200, 201, 202, 409, 422])]);
      for (const { id } of await list()) if (!feeds.has(id)) feeds.set(id, (await linkOf(key, id)).feed);
      for (const [who, url] of feeds) {
        for (const [uid, sequence] of await sequencesOf(url)) {
          const name = `${who} ${uid}`;
          expect(sequence, `step ${step}, ${act}: ${name}`).toBeGreaterThanOrEqual(highest.get(name) ?? 0);
          highest.set(name, sequence);
        }
      }
      const { id: owner } = await show(stopped);
      const hers = (await plansOf(key)).filter(({ booking }) => booking.client.id === owner);
      const ahead = hers.filter(({ standing }) => standing !== "past" && standing !== "cancelled");
      expect(ahead.map(({ standing }) => standing)).toEqual(ahead.map(() => "stop"));
    }
  },
);
