/**
 * A salon for one story, made and filled through the API. Its zone is chosen so that its clock shows a given hour now: a story of
 * the morning is one whenever it runs.
 */
import { expect } from "vitest";

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
export const OPERATOR = "operator-of-a-test";

export interface StoryEntry {
  readonly uid: string;
  readonly summary?: string;
  /** Days from today, and the time of the salon's clock. */
  readonly inDays: number;
  readonly at: string;
  readonly client?: string;
  readonly phone?: string;
}

interface PlanSeen {
  readonly booking: { readonly uid: string; readonly client: { readonly id: string; readonly name: string } };
  readonly standing: string;
  readonly route: string | null;
  readonly steps: readonly { readonly kind: string; readonly state: string; readonly due: string }[];
}

const EVERY_DAY = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"] as const;
const STANDARD_TESTS = [
  { route: "home-kit", protocol: "home-kit-120h", kit: { name: "Home test kit" } },
  { route: "in-salon", protocol: "salon-48h" },
];

/** A zone without clock changes in which it is that hour now, from UTC−12 to UTC+14. */
const zoneAtHour = (hour: number): { readonly zone: string; readonly ahead: number } => {
  const far = (hour - new Date().getUTCHours() + 24) % 24;
  const ahead = far > 12 ? far - 24 : far;
  // POSIX counts these the other way round.
  return { zone: ahead === 0 ? "Etc/GMT" : `Etc/GMT${ahead > 0 ? "-" : "+"}${Math.abs(ahead)}`, ahead };
};

export class StorySalon {
  readonly origin: string;
  readonly key: string;
  readonly #ahead: number;

  private constructor(origin: string, key: string, ahead: number) {
    this.origin = origin;
    this.key = key;
    this.#ahead = ahead;
  }

  /** @param hour that its clock shows; it is open from nine to half past five, every day, and the post goes every day */
  static async atHour(origin: string, hour: number, settings: object = {}): Promise<StorySalon> {
    const { zone, ahead } = zoneAtHour(hour);
    const made = await fetch(`${origin}/api/salons`, {
      method: "POST",
      headers: { authorization: `Bearer ${OPERATOR}`, "content-type": "application/json" },
      body: JSON.stringify({
        name: "Quillfen Colour Room",
        zone,
        country: "GB",
        contact: { phone: "01632 960 155", email: "hello@quillfen.example" },
        staff: ["Ines", "Tomas"],
        holidays: null,
        tests: STANDARD_TESTS,
        opening: Object.fromEntries(EVERY_DAY.map((day) => [day, ["09:00-17:30"]])),
        post: { collection: EVERY_DAY, delivery: EVERY_DAY, transit: 1, holidays: false },
        ...settings,
      }),
    });
    if (made.status !== 201) throw new Error(`no salon was made: ${made.status} ${await made.text()}`);
    return new StorySalon(origin, (await made.json<{ key: string }>()).key, ahead);
  }

  /** A time of the salon's clock, some days from its today, as a field for a local time has it. */
  local(inDays: number, at: string): string {
    return `${new Date(Date.now() + this.#ahead * HOUR_MS + inDays * DAY_MS).toISOString().slice(0, 10)}T${at}`;
  }

  /** The same as an instant. */
  instant(inDays: number, at: string): string {
    const utc = Date.parse(`${this.local(inDays, at)}:00Z`) - this.#ahead * HOUR_MS;
    return new Date(utc).toISOString().replace(".000", "");
  }

  async ask(method: string, path: string, body?: unknown): Promise<unknown> {
    const answer = await fetch(`${this.origin}/api/salon${path}`, {
      method,
      headers: { authorization: `Bearer ${this.key}`, "content-type": "application/json" },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    if (!answer.ok) throw new Error(`${method} ${path} answered ${answer.status}: ${await answer.text()}`);
    return answer.json();
  }

  async push(entries: readonly StoryEntry[]): Promise<void> {
    const answer = await fetch(`${this.origin}/api/salon/diaries/main`, {
      method: "PUT",
      headers: { authorization: `Bearer ${this.key}`, "content-type": "text/calendar" },
      body: this.#diaryOf(entries),
    });
    expect([answer.status, (await answer.json<{ status: string }>()).status]).toEqual([200, "read"]);
  }

  /** Tells what happened before the story begins. */
  async record(booking: string, kind: string, inDays: number, at: string, more: object = {}): Promise<void> {
    const record = { booking, kind, at: this.instant(inDays, at), by: "Ines", via: "desk", ...more };
    await this.ask("POST", "/records", record);
  }

  async records(): Promise<readonly Readonly<Record<string, unknown>>[]> {
    return ((await this.ask("GET", "/records")) as { records: Record<string, unknown>[] }).records;
  }

  async plans(): Promise<readonly PlanSeen[]> {
    return ((await this.ask("GET", "/plans")) as { plans: PlanSeen[] }).plans;
  }

  async plan(uid: string): Promise<PlanSeen> {
    const plan = (await this.plans()).find(({ booking }) => booking.uid === uid);
    if (!plan) throw new Error(`${uid} has no plan`);
    return plan;
  }

  /** A client's page and feed, by one of her bookings. */
  async linkOf(uid: string): Promise<{ readonly page: string; readonly feed: string }> {
    const { id } = (await this.plan(uid)).booking.client;
    return (await this.ask("POST", `/clients/${id}/link`)) as { page: string; feed: string };
  }

  #diaryOf(entries: readonly StoryEntry[]): string {
    const lines = entries.flatMap(({ uid, summary = "Root tint", inDays, at, client, phone }) => [
      "BEGIN:VEVENT",
      `UID:${uid}`,
      "DTSTAMP:20260101T000000Z",
      `DTSTART:${this.instant(inDays, at).replaceAll(/[-:]/g, "")}`,
      `SUMMARY:${summary}`,
      ...(client ? [`ATTENDEE;CN="${client}":mailto:${client.split(" ")[0]?.toLowerCase()}@example.com`] : []),
      ...(phone ? [`DESCRIPTION:tel:${phone}`] : []),
      "END:VEVENT",
    ]);
    return ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Quillfen//EN", ...lines, "END:VCALENDAR", ""].join("\r\n");
  }
}
