/** What the parts of the simulation share: the clock, the dice, the service's calls, the log, and what was found wrong. */
import { evictDurableObject } from "cloudflare:test";
import { ask, createSalon, linkOf, objectOf, push, send, setClock, type TestSalon } from "../service/client.ts";
import { iso, type SalonCalendar, type Seconds } from "./calendar.ts";
import { Diaries } from "./diaries.ts";
import type { Dice } from "./Dice.ts";
import { SalonLog } from "./log.ts";
import type { Woman } from "./people.ts";

/** More than this tells nothing new. */
const FAULTS_MAX = 40;

export class World {
  readonly dice: Dice;
  readonly calendar: SalonCalendar;
  readonly log: SalonLog;
  readonly diaries: Diaries;
  readonly women: readonly Woman[];
  readonly salon: TestSalon;
  readonly settings: Record<string, unknown>;
  readonly faults: string[] = [];
  readonly counts: Record<string, number> = {};
  /** Bookings of which something was told or changed since the judge last looked. */
  readonly touched = new Set<string>();
  now: Seconds;
  readonly end: Seconds;
  #events: { readonly at: Seconds; readonly run: () => Promise<void> }[] = [];
  readonly #links = new Map<string, string>();
  readonly #said = new Set<string>();
  #serial = 0;

  constructor(
    given: Pick<World, "dice" | "calendar" | "women" | "salon" | "settings" | "now" | "end"> & {
      log: SalonLog;
      chairs: number;
    },
  ) {
    this.dice = given.dice;
    this.calendar = given.calendar;
    this.women = given.women;
    this.salon = given.salon;
    this.settings = given.settings;
    this.now = given.now;
    this.end = given.end;
    this.log = given.log;
    this.diaries = new Diaries(given.calendar, given.chairs);
  }

  count(what: string, more = 1): void {
    this.counts[what] = (this.counts[what] ?? 0) + more;
  }

  fault(text: string): void {
    // Said once: what is wrong stays so from week to week.
    if (this.#said.has(text)) return;
    this.#said.add(text);
    this.faults.push(`${iso(this.now)} ${text}`);
    if (this.faults.length >= FAULTS_MAX) throw new Error(`too much is wrong to go on:\n${this.faults.join("\n")}`);
  }

  /** A word that stands in nothing else. */
  token(kind: string): string {
    return `${kind}${(++this.#serial).toString(36).padStart(5, "0")}q`;
  }

  later(at: Seconds, run: () => Promise<void>): void {
    if (at > this.now && at < this.end) this.#events.push({ at, run });
  }

  setTime(now: Seconds): void {
    this.now = now;
    setClock(iso(now));
  }

  /** Runs what is planned up to an instant, each at its own; before each, a restart by chance. */
  async runTo(until: Seconds, between: () => Promise<void>): Promise<void> {
    for (;;) {
      this.#events.sort((one, other) => one.at - other.at);
      const next = this.#events[0];
      if (!next || next.at >= until) break;
      this.#events.shift();
      this.setTime(next.at);
      await between();
      await next.run();
    }
  }

  async ask(method: string, path: string, body?: unknown): Promise<Response> {
    this.count("requests");
    return ask(this.salon.key, method, `/api/salon${path}`, body);
  }

  async json<Body>(path: string): Promise<Body> {
    const answer = await this.ask("GET", path);
    if (answer.status !== 200) throw new Error(`GET ${path}: ${answer.status} ${await answer.text()}`);
    return answer.json<Body>();
  }

  async send(path: string, init?: RequestInit): Promise<Response> {
    this.count("requests");
    return send(path, init);
  }

  async post(address: string, body: unknown): Promise<Response> {
    const headers = { "content-type": "application/json", accept: "application/json" };
    return this.send(address, { method: "POST", headers, body: JSON.stringify(body) });
  }

  async push(chair: string): Promise<void> {
    this.count("readings");
    const answer = await push(this.salon.key, this.diaries.textOf(chair, this.now), chair);
    if (answer.status !== 200) this.fault(`pushing ${chair}: ${answer.status} ${await answer.text()}`);
    else await answer.body?.cancel();
  }

  /** The page of a client's link. */
  async page(client: string): Promise<string> {
    const known = this.#links.get(client);
    if (known !== undefined) return known;
    const { page } = await linkOf(this.salon.key, client);
    this.#links.set(client, page);
    return page;
  }

  async restart(): Promise<void> {
    this.count("restarts");
    await evictDurableObject(objectOf(this.salon));
  }
}

export { createSalon };
