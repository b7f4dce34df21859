/**
 * Keeps one salon between two requests: its storage, its present state, its rules. Everything that changes a salon goes
 * through `commit`, which writes the difference in one transaction. Knows no HTTP and fetches nothing.
 */
import { settingsSchema, type Settings } from "../settings.ts";
import { refuseRegion } from "../plan/holidays.ts";
import { REPEATS_KEPT_HOURS } from "../bounds.ts";
import { HOUR, type Instant } from "../time/instant.ts";
import { compileDesk, type SalonDesk } from "./desk.ts";
import { askWhole, forgetMovedDiaries, inOrder, matchDiaries } from "./diariesOfSettings.ts";
import { emptyState } from "./emptyState.ts";
import { type FeedForm, variantOf } from "./feedForm.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import { refuseAddresses } from "./refuseAddresses.ts";
import { refuseTemplates } from "./refuseTemplates.ts";
import { renderFeed } from "./renderFeed.ts";
import { change, nextBoundary, settle, type Work } from "./settle.ts";
import { Store } from "./store.ts";
import type { Audience, State } from "./types.ts";

/** What the platform gives a salon besides its storage. */
export interface Surroundings {
  readonly linkSecret: string;
  /** Diaries and pages of this machine may be asked: the local demo only. */
  readonly allowLocal: boolean;
  /** The origin of the pages that events point to; null: that of the request that made the salon. */
  readonly publicOrigin: string | null;
}

/** What a salon is made of. */
interface NewSalon {
  readonly id: string;
  readonly origin: string;
  readonly settings: Settings;
  readonly keyHash: string;
  /** Of a request that may be sent again; null: it may not. */
  readonly print: string | null;
}

export class Keeper {
  readonly store: Store;
  readonly surroundings: Surroundings;
  #state: State | undefined;
  #desk: SalonDesk | undefined;
  /** When time alone next changes the present state; null: never. Undefined: it has to be looked for. */
  #boundary: Instant | null | undefined;

  constructor(storage: DurableObjectStorage, surroundings: Surroundings) {
    this.store = new Store(storage);
    this.surroundings = surroundings;
  }

  /** Whether a salon was ever made here. */
  get exists(): boolean {
    return this.store.holdsAnything && this.store.meta("salon") !== undefined;
  }

  get #origin(): string {
    return this.surroundings.publicOrigin ?? this.store.meta("origin") ?? "";
  }

  get state(): State {
    if (!this.#state) throw new Error("the salon is used before it is ready");
    return this.#state;
  }

  get desk(): SalonDesk {
    if (!this.#desk) throw new Error("the salon is used before it is ready");
    return this.#desk;
  }

  /** Of the settings that hold; the first is 1. */
  get version(): number {
    return this.store.latestSettings()?.version ?? 0;
  }

  get settings(): Settings {
    return this.desk.rules.settings;
  }

  /** Makes the salon. The caller has tried the settings with `compileDesk`. */
  create({ id, origin, settings, keyHash, print }: NewSalon, at: Instant): void {
    this.store.together(() => {
      if (print !== null) this.store.setMeta("made-for", JSON.stringify([print, at]));
      this.store.setMeta("salon", id);
      this.store.setMeta("origin", origin);
      this.store.setMeta("feed-generation", "1");
      this.store.addKey(keyHash, at);
      this.store.addSettings(1, at, JSON.stringify(settings));
    });
  }

  /**
   * Loads what is not loaded yet and brings it up to the code, the zone data and the year it wakes in: where one of
   * them differs, every plan is made anew, and what says the same keeps its stamps. True where that was so: the diaries
   * are then to be read again from their stored text.
   */
  async ready(at: Instant): Promise<boolean> {
    const year = new Date(at * 1000).getUTCFullYear();
    if (!this.#desk || this.#desk.year !== year) {
      const stored = this.store.latestSettings();
      if (!stored) throw new Error("the salon has no settings");
      this.#desk = await this.tryDesk(settingsSchema.parse(JSON.parse(stored.json)), year);
      this.#boundary = undefined;
    }
    this.#state ??= inOrder(this.store.load(emptyState(at)), this.settings);
    if (this.store.meta("made-by") === this.desk.print) return false;
    const after = change(this.state, at, this.desk, (work) => {
      matchDiaries(work, this.settings);
      askWhole(work);
      work.touched = "all";
    });
    this.commit(after, () => this.#sayAnew(this.desk, at));
    return true;
  }

  /** The desk that these settings make; throws nothing and stores nothing. */
  async tryDesk(settings: Settings, year: number): Promise<SalonDesk> {
    const made = await this.#compile(settings, year);
    if (!made.ok) throw new Error("stored settings are refused by the rules", { cause: made.refusals });
    return made.desk;
  }

  /** The desk of settings that somebody gives now, or what is wrong with them. */
  async compile(settings: Settings, year: number): ReturnType<typeof compileDesk> {
    const made = await this.#compile(settings, year);
    const stored = this.#desk?.rules.settings;
    const unread = [
      ...refuseTemplates(settings, stored),
      ...refuseAddresses(settings, stored, this.surroundings.allowLocal),
    ];
    const refusals = made.ok ? [...unread, ...refuseRegion(made.desk.rules.holidays)] : [];
    return refusals.length > 0 ? { ok: false, refusals } : made;
  }

  async #compile(settings: Settings, year: number): ReturnType<typeof compileDesk> {
    const id = this.store.meta("salon") ?? "";
    return compileDesk(settings, { id, origin: this.#origin, linkSecret: this.surroundings.linkSecret }, year);
  }

  /** Settings have been tried and now hold: a new version, every plan made anew. */
  adopt(settings: Settings, desk: SalonDesk, at: Instant): void {
    const before = this.desk;
    const settled = settle(this.state, at, before);
    const after = change(settled, at, desk, (work) => {
      matchDiaries(work, settings);
      forgetMovedDiaries(work, before.rules.settings, settings);
      work.touched = "all";
    });
    this.#desk = desk;
    try {
      this.commit(after, () => {
        this.store.addSettings(this.version + 1, at, JSON.stringify(settings));
        this.#sayAnew(desk, at);
      });
    } catch (error) {
      this.#desk = before;
      this.#boundary = undefined;
      throw error;
    }
  }

  /** What is answered to whoever asks for this salon to be made again. */
  madeBefore(keyHash: string, print: string | null, at: Instant): Outcome<{ feedGeneration: number }> {
    const [made, since] = JSON.parse(this.store.meta("made-for") ?? "[null, 0]") as [string | null, Instant];
    const isSame = print !== null && made === print && at < since + REPEATS_KEPT_HOURS * HOUR;
    if (!isSame) return fail({ code: "idempotency-key-reused" });
    return this.store.hasKey(keyHash) ? succeed({ feedGeneration: 1 }) : fail({ code: "done-and-gone" });
  }

  /** All of it is gone from storage: nothing of it may be known any longer. */
  forget(): void {
    this.#state = undefined;
    this.#desk = undefined;
    this.#boundary = undefined;
    this.store.forget();
  }

  renewKey(keyHash: string, at: Instant): void {
    this.store.together(() => this.store.addKey(keyHash, at));
  }

  /** The generation of the salon feed's link that holds from here on. */
  renewFeed(): number {
    const generation = Number(this.store.meta("feed-generation")) + 1;
    this.store.together(() => this.store.setMeta("feed-generation", String(generation)));
    return generation;
  }

  #sayAnew(desk: SalonDesk, at: Instant): void {
    this.store.setMeta("made-by", desk.print);
    this.store.setMeta("zone", desk.rules.zone.name);
    this.store.setMeta("said-at", String(at));
    this.store.feeds.dropAll();
  }

  /** A change at `at`, written. */
  change(at: Instant, edit: (work: Work) => void, alongside?: () => void): void {
    this.commit(change(this.state, at, this.desk, edit), alongside);
  }

  /** Several changes as one: all of them, or none. */
  asOne<Value>(act: () => Value): Value {
    const before = this.#state;
    try {
      let value: Value | undefined;
      this.store.together(() => {
        value = act();
      });
      return value as Value;
    } catch (error) {
      this.#state = before;
      this.#boundary = undefined;
      throw error;
    }
  }

  /** Applies what time has brought up to `at`, and writes it. */
  settle(at: Instant): void {
    if (this.#boundary === undefined) this.#boundary = nextBoundary(this.state, this.desk);
    if (this.#boundary === null || at < this.#boundary) {
      if (at > this.state.settledTo) this.#state = { ...this.state, settledTo: at };
      return;
    }
    const after = settle(this.state, at, this.desk);
    if (after.events !== this.state.events) this.commit(after);
    else this.#state = after;
  }

  commit(after: State, alongside: () => void = () => {}): void {
    const before = this.state;
    let next: Instant | null = null;
    this.store.together(() => {
      this.store.save(before, after);
      for (const audience of changedAudiences(before, after)) this.store.feeds.drop(audience);
      for (const id of before.clients.keys()) if (!after.clients.has(id)) this.store.forgetClient(id);
      next = nextBoundary(after, this.desk);
      this.store.setMeta("next", String(next ?? ""));
      alongside();
      // A held text goes with its holding, and all text of a diary with the diary.
      for (const [name, { held }] of before.diaries) {
        if (!after.diaries.has(name)) this.store.blocks.drop(name);
        else if (held && !after.diaries.get(name)?.held) this.store.blocks.dropHeld(name);
      }
    });
    this.#state = after;
    this.#boundary = next;
  }

  /** Makes a feed anew and keeps it: rendered once after each change, then served as stored. */
  makeFeed(audience: Audience, form: FeedForm, at: Instant): void {
    const saidAt = Number(this.store.meta("said-at") ?? 0);
    const rendered = renderFeed(audience, this.state, this.desk, saidAt, form);
    this.store.together(() => this.store.feeds.save(audience, variantOf(form), rendered, at));
  }
}

const changedAudiences = (before: State, after: State): Set<Audience> => {
  const changed = new Set<Audience>();
  for (const [key, event] of after.events) if (before.events.get(key) !== event) changed.add(event.audience);
  for (const [key, event] of before.events) if (!after.events.has(key)) changed.add(event.audience);
  for (const [id, client] of after.clients) if (before.clients.get(id) !== client) changed.add(id);
  return changed;
};
