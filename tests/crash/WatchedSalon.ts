/** One salon of a run: how it is reached, what it was told, and what its service may therefore say. */
import type { Dice } from "../fuzz/Dice.ts";
import { Appointments, type Bookings } from "./Appointments.ts";
import { type Answer, type Answered, type Caller, jsonOf, pathOf } from "./Caller.ts";
import { FeedLog } from "./FeedLog.ts";
import { Held, Order } from "./Held.ts";
import { Journal } from "./Journal.ts";
import { settingsOf } from "./settingsOf.ts";
import { OPERATOR } from "./Service.ts";
import type { Tally } from "./Tally.ts";

export interface ClientSeen {
  readonly id: string;
  readonly name: string;
}

export interface LinkedClient extends ClientSeen {
  /** Path of her page; her feed stands under it. */
  readonly page: string;
}

export interface PlanSeen {
  readonly booking: {
    readonly uid: string;
    readonly start: string;
    readonly summary: string;
    readonly diary: string;
    readonly client: ClientSeen;
  };
  readonly standing: string;
}

/** Of a pushed diary: the book it is written from, and what may be applied; null: the diary was taken away. */
export interface WatchedDiary {
  readonly name: string;
  readonly book: Appointments;
  readonly held: Held<Bookings | null>;
}

const LINKED_CLIENTS = 6;

export class WatchedSalon {
  readonly order = new Order();
  readonly journal = new Journal();
  readonly feeds: FeedLog;
  readonly diaries: readonly WatchedDiary[];
  readonly settings: Held<Readonly<Record<string, unknown>>>;
  /** The ids of acknowledged versions of the settings, and what was acknowledged as them. */
  readonly versions = new Map<number, string>();
  /** Which client has which id: none may ever be given to another. */
  readonly clientIds = new Map<string, string>();
  linked: readonly LinkedClient[] = [];
  bookings: readonly PlanSeen["booking"][] = [];
  readonly #key: string;
  readonly feedPath: string;
  #numbered = 1;

  private constructor(key: string, feedPath: string, dice: Dice, tally: Tally) {
    this.#key = key;
    this.feedPath = feedPath;
    this.feeds = new FeedLog(this.order, tally);
    const now = Date.now();
    const diary = (name: string, chair: string, size: number): WatchedDiary => ({
      name,
      book: new Appointments(dice, chair, size, now),
      held: new Held<Bookings | null>(this.order, null),
    });
    this.diaries = [diary("main", "Mainwald", 30), diary("second chair", "Chairley", 10), diary("guest", "Guestow", 8)];
    this.settings = new Held(this.order, settingsOf(dice, 1));
  }

  /** Makes a salon, fills its diaries and asks for its clients' links; nothing is killed meanwhile. */
  static async open(caller: Caller, dice: Dice, tally: Tally): Promise<WatchedSalon> {
    const made = await caller.ask("POST", "/api/salons", { key: OPERATOR, json: settingsOf(dice, 1) });
    const { key, feed } = jsonOf(sure(made, 201)) as { key: string; feed: string };
    const salon = new WatchedSalon(key, pathOf(feed), dice, tally);
    const held = await salon.ask(caller, "GET", "/api/salon");
    const settings = salon.settings.begin(jsonOf(sure(held, 200)) as Readonly<Record<string, unknown>>);
    salon.settings.acknowledge(settings);
    for (const { name, book, held: place } of salon.diaries.slice(0, 2)) {
      const { text, bookings } = book.diary;
      const write = place.begin(bookings);
      sure(await salon.ask(caller, "PUT", diaryPath(name), { calendar: text }), 200);
      place.acknowledge(write);
    }
    const { plans } = jsonOf(sure(await salon.ask(caller, "GET", "/api/salon/plans"), 200)) as { plans: PlanSeen[] };
    const clients = new Map(plans.map(({ booking }) => [booking.client.id, booking.client]));
    const linked: LinkedClient[] = [];
    for (const client of [...clients.values()].slice(0, LINKED_CLIENTS)) {
      const link = await salon.ask(caller, "POST", `/api/salon/clients/${client.id}/link`);
      linked.push({ ...client, page: pathOf((jsonOf(sure(link, 200)) as { page: string }).page) });
    }
    salon.linked = linked;
    salon.bookings = plans.map(({ booking }) => booking);
    tally.add("salons");
    return salon;
  }

  /** Asks with the salon's key. */
  ask(caller: Caller, method: string, path: string, sending: Parameters<Caller["ask"]>[2] = {}): Promise<Answer> {
    return caller.ask(method, path, { ...sending, key: this.#key });
  }

  /** A number that no settings of this salon had: they are known again by it. */
  nextNumber(): number {
    return ++this.#numbered;
  }
}

export const diaryPath = (name: string): string => `/api/salon/diaries/${encodeURIComponent(name)}`;

/** An answer that must be there, since nothing was killed. */
export const sure = (answer: Answer, status: number): Answered => {
  if (answer.kind !== "answered") throw new Error(`an answer was ${answer.kind} though nothing was killed`);
  if (answer.status === status) return answer;
  throw new Error(`an answer was ${answer.status}, not ${status}: ${answer.body.toString("utf8").slice(0, 300)}`);
};
