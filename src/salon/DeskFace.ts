/** What the salon's own pages ask besides: who may see them, what stands on the first of them, and what is pressed there. */
import type { Settings } from "../settings.ts";
import { eventUid } from "../plan/uid.ts";
import type { Day, Instant, Wall } from "../time/instant.ts";
import { addDeed, type Decider } from "./clientDecisions.ts";
import { deskBooking, type DeskBookingShown } from "./deskBooking.ts";
import { deskToday, type DeskToday } from "./deskToday.ts";
import { deskWeeks, type DeskWeeks } from "./deskWeeks.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import { maskSettings } from "./maskAddress.ts";
import { ClientFace } from "./ClientFace.ts";
import { addRecord, type FactDraft } from "./records.ts";
import type { Once } from "./once.ts";
import { PlanMemo } from "./PlanMemo.ts";
import { ownersOf } from "./owners.ts";
import type { Recorded } from "./types.ts";

/** What every page of the desk shows of the salon. */
export interface DeskHead {
  readonly now: Instant;
  /** No diary's address shows its user and password. */
  readonly settings: Settings;
  readonly version: number;
  readonly feedGeneration: number;
}

/** A page that is asked for again is made anew only where something has changed. */
export interface Unchanged {
  readonly tag: string;
  readonly weeks: null;
}

export abstract class DeskFace extends ClientFace {
  readonly #plans = new PlanMemo();
  /** Another one each time the object comes into memory: counts made there begin anew, and what was told of them outlives it. */
  readonly #life = crypto.randomUUID();
  #refs: { readonly changes: number; readonly uids: ReadonlyMap<string, string> } | undefined;

  /** Null where the key it was opened with opens nothing any more. */
  async deskHead(keyHash: string): Promise<DeskHead | null> {
    if (!this.holdsKey(keyHash)) return null;
    const now = await this.wake();
    const { keeper } = this;
    return {
      now,
      settings: maskSettings(keeper.settings),
      version: keeper.version,
      feedGeneration: Number(keeper.store.meta("feed-generation")),
    };
  }

  /** @param since from when on there is news */
  async deskToday(since: Instant): Promise<DeskToday> {
    const now = await this.wake();
    const { state, desk, store } = this.keeper;
    return deskToday(state, desk.rules, store.links.all(), since, now, this.#plans.make);
  }

  /**
   * @param days local days, from the first up to and without the second
   * @param known the tag of what the asker still has; where it holds, nothing else is answered
   */
  async deskWeeks(
    days: { readonly from: Day; readonly to: Day },
    known: string | null,
  ): Promise<{ readonly tag: string; readonly weeks: DeskWeeks } | Unchanged> {
    const now = await this.wake();
    const { state, desk, store, version } = this.keeper;
    // Every boundary that time passes is written, so that the count of writes tells whether a plan may differ.
    const tag = `${this.#life} ${store.changes} ${version} ${desk.print}`;
    if (tag === known) return { tag, weeks: null };
    return { tag, weeks: deskWeeks(state, desk.rules, days, now, this.#plans.make) };
  }

  /**
   * @param ref how the desk names it: the UID of its `colour` event
   * @param start another start to try, by the salon's clock
   */
  async deskBooking(ref: string, start: Wall | null): Promise<Outcome<DeskBookingShown>> {
    const now = await this.wake();
    const { state, desk, store } = this.keeper;
    const uid = this.#uidOf(ref);
    const at = start === null ? null : this.zone().firstReading(start);
    const shown = uid === undefined ? undefined : deskBooking(state, desk.rules, store.links.all(), uid, at, now);
    return shown ? succeed(shown) : fail({ code: "no-such-booking" });
  }

  /**
   * A record that was pressed at the desk.
   * @param ref of its appointment; null: of none
   * @param when by the salon's clock; null: as the draft says
   */
  async addDeskRecord(
    ref: string | null,
    draft: FactDraft,
    when: Wall | null,
    once: Once | null,
  ): Promise<Outcome<Recorded>> {
    const now = await this.wake();
    const booking = ref === null ? null : this.#uidOf(ref);
    if (booking === undefined) return fail({ code: "no-such-booking" });
    const at = when === null ? draft.at : this.zone().firstReading(when);
    const added = this.recordOnce(once, now, () => addRecord(this.keeper, { ...draft, booking, at }, now));
    await this.setAlarm();
    return added;
  }

  /** Somebody at the desk has read what was told. Said again it changes nothing. */
  async acknowledge(record: string, decider: Decider): Promise<Outcome<null>> {
    const now = await this.wake();
    const { state } = this.keeper;
    const told = state.facts.get(record);
    const client = told && ownersOf(state).ofRecord(told);
    if (!client) return fail({ code: "no-such-record" });
    const isRead = [...state.deeds.values()].some(({ kind, other }) => kind === "acknowledged" && other === record);
    if (!isRead)
      this.keeper.change(now, (work) => addDeed(work, { client, kind: "acknowledged", other: record }, decider));
    return succeed(null);
  }

  /** Her link was handed to her. */
  async giveLink(client: string): Promise<Outcome<null>> {
    const given = await this.clientLink(client, false, true);
    return given.ok ? succeed(null) : given;
  }

  #uidOf(ref: string): string | undefined {
    const { keeper } = this;
    if (this.#refs?.changes !== keeper.store.changes) {
      const salon = keeper.store.meta("salon") ?? "";
      const uids = [...keeper.state.bookings.keys()].map((uid) => [eventUid(salon, uid, "colour", null), uid] as const);
      this.#refs = { changes: keeper.store.changes, uids: new Map(uids) };
    }
    return this.#refs.uids.get(ref);
  }
}
