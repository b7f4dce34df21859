/**
 * The salon's Durable Object, whole: what web/ may ask of a salon is the public methods of its faces, and here those for whoever
 * holds a link. Makes no words; of HTTP it knows only how a feed is answered.
 */
import type { Rules } from "../plan/rules.ts";
import { type Shade, shadesBetween } from "../plan/shades.ts";
import type { Plan } from "../plan/types.ts";
import type { Settings } from "../settings.ts";
import type { Instant, Wall } from "../time/instant.ts";
import { askQuestions, type QuestionsAsked } from "./askQuestions.ts";
import { type ConsentHeld, consentOf, type ConsentSaid, withdrawConsent } from "./consent.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import { askOf, isHeld } from "./feedAsk.ts";
import { FeedFront } from "./feedFront.ts";
import { lastTold } from "./lastTold.ts";
import { EVERY_PLAN, plansOf } from "./plans.ts";
import { addClientRecord, type FactDraft } from "./records.ts";
import { type Answered, answerQuestions, type GivenAnswers } from "./screening.ts";
import { doOnce, type Once } from "./once.ts";
import { personOf } from "./owners.ts";
import type { Client, Recorded } from "./types.ts";
import { DeskFace } from "./DeskFace.ts";
import { secondsNow, type SalonEnv } from "./SalonBase.ts";

export interface ClientPage {
  readonly settings: Settings;
  readonly client: { readonly id: string; readonly name: string };
  readonly plans: readonly Plan[];
  /** Her agreement that her health answers are kept; null: she was never asked. */
  readonly consent: ConsentHeld | null;
  /** Where each of these appointments stood before it last moved, by `booking.uid`; those that never moved are not there. */
  readonly movedFrom: ReadonlyMap<string, Instant>;
  /** Days on which the salon or the post does not work, from the first of her steps to the last of her appointments. */
  readonly shades: readonly Shade[];
  /** What she told last by her link and nobody has set aside; null: nothing. */
  readonly told: Recorded | null;
  readonly now: Instant;
}

/** Those that a picture of these plans may show. */
const shadesOf = (plans: readonly Plan[], rules: Rules, now: Instant): readonly Shade[] => {
  const times = plans.flatMap(({ booking, steps }) => [
    booking.start,
    ...steps.flatMap(({ opens, due }) => [opens, due]),
  ]);
  return plans.length === 0 ? [] : shadesBetween(rules, Math.min(now, ...times), Math.max(...times));
};

export class Salon extends DeskFace {
  readonly #front: FeedFront;
  /** Links known to have been opened, so that storage is asked once for each. */
  readonly #opened = new Set<string>();

  constructor(ctx: DurableObjectState, env: SalonEnv) {
    super(ctx, env);
    this.#front = new FeedFront(this.keeper.store, env.PUBLIC_ORIGIN ?? null);
  }

  /** Answers for a feed, whole: as it is stored where nothing has changed since, otherwise made anew first. */
  override async fetch(request: Request): Promise<Response> {
    const ask = askOf(request, this.keeper.surroundings.linkSecret);
    if (!ask) return new Response(null, { status: 404 });
    let found = this.#front.find(ask.audience, ask.form, secondsNow());
    if (found === undefined && this.keeper.exists) found = this.#front.find(ask.audience, ask.form, secondsNow());
    const fault = this.#linkFault(found?.generation ?? undefined, ask.generation);
    if (fault && (!this.keeper.exists || this.#isGone(ask.audience))) return new Response(null, { status: 410 });
    if (fault || !found) return new Response(null, { status: fault?.fault.code === "link-revoked" ? 410 : 404 });
    const { audience } = found;
    let { feed } = found;
    if (!feed) {
      const now = await this.wake();
      this.keeper.makeFeed(audience, ask.form, now);
      feed = this.#front.find(audience, ask.form, now)?.feed ?? null;
    }
    if (!feed) throw new Error("a feed that was just made is not what would be said");
    const isFirst = ask.audience !== "salon" && !found.isOpened && request.method !== "HEAD";
    if (isFirst) this.#noteOpened(ask.audience, ask.generation);
    const headers = this.#front.headers(ask, feed, secondsNow());
    if (isHeld(ask, feed)) return new Response(null, { status: 304, headers });
    const octets = this.#front.octets(audience, ask.form);
    if (request.method !== "HEAD") return new Response(octets, { headers });
    return new Response(null, { headers: { ...Object.fromEntries(headers), "content-length": String(octets.length) } });
  }

  /** @param isOpened a person's browser shows it: what looks at a link before it is sent on does not count */
  async clientPage(number: number, generation: number, isOpened: boolean): Promise<Outcome<ClientPage>> {
    const found = await this.#clientBehind(number, generation);
    if (!found.ok) return found;
    if (isOpened) this.#noteOpened(`c${number}`, generation);
    const { client, now } = found.value;
    const { state, settings, desk } = this.keeper;
    const { plans } = plansOf(state, desk.rules, { ...EVERY_PLAN, client: client.id }, now);
    const consent = consentOf(state, client.id);
    const shades = shadesOf(plans, desk.rules, now);
    const told = lastTold(state, client.id);
    const movedFrom = new Map(
      plans.flatMap(({ booking: { uid } }): [string, Instant][] => {
        const from = state.bookings.get(uid)?.turned?.from ?? null;
        return from === null ? [] : [[uid, from]];
      }),
    );
    const { id, name } = client;
    return succeed({ settings, client: { id, name }, plans, consent, movedFrom, shades, told, now });
  }

  /** @param pressed by a press on her page: with a local time of the salon's that stands for the draft's own `at`, or null */
  async addClientRecord(
    number: number,
    generation: number,
    draft: FactDraft,
    pressed: { readonly when: Wall | null } | null,
    once: Once | null,
  ): Promise<Outcome<Recorded>> {
    const found = await this.#clientBehind(number, generation);
    if (!found.ok) return found;
    this.#noteOpened(`c${number}`, generation);
    const { now } = found.value;
    const when = pressed?.when ?? null;
    const at = when === null ? draft.at : this.zone().firstReading(when);
    const id = `c${number}`;
    const added = this.recordOnce(once, now, () =>
      addClientRecord(this.keeper, id, { ...draft, at }, pressed !== null, now),
    );
    await this.setAlarm();
    return added;
  }

  /** @param appointment the UID of an appointment's `colour` event; null: her next one is meant */
  async questions(number: number, generation: number, appointment: string | null): Promise<Outcome<QuestionsAsked>> {
    const found = await this.#clientBehind(number, generation);
    if (!found.ok) return found;
    return succeed(askQuestions(this.keeper, found.value.client, appointment, found.value.now));
  }

  async answerQuestions(
    number: number,
    generation: number,
    given: GivenAnswers,
    once: Once | null,
  ): Promise<Outcome<Answered>> {
    const found = await this.#clientBehind(number, generation);
    if (!found.ok) return found;
    this.#noteOpened(`c${number}`, generation);
    const { client, now } = found.value;
    const answered = doOnce(this.keeper, once, now, {
      run: () => answerQuestions(this.keeper, client, given, now),
      keep: (told) => ({ told, client: client.id }),
      again: (told) => told as Answered,
    });
    await this.setAlarm();
    return answered;
  }

  /** Her agreement to keep her health answers, taken back; `isPressed`: by what her page offers. */
  async withdrawConsent(number: number, generation: number, isPressed: boolean): Promise<Outcome<ConsentSaid>> {
    const found = await this.#clientBehind(number, generation);
    if (!found.ok) return found;
    return succeed(withdrawConsent(this.keeper, found.value.client, isPressed, found.value.now));
  }

  /** That a link is in use is kept once. */
  #noteOpened(client: string, generation: number): void {
    const mark = `${client} ${generation}`;
    if (this.#opened.has(mark)) return;
    const { links } = this.keeper.store;
    if (!links.isOpened(client, generation)) links.open(client, generation, secondsNow());
    this.#opened.add(mark);
  }

  #linkFault(current: number | undefined, given: number) {
    if (current === undefined || !(given <= current)) return fail({ code: "link-unknown" });
    return given < current ? fail({ code: "link-revoked" }) : undefined;
  }

  /** Whether such a client was here once: her links were valid. */
  #isGone(audience: string): boolean {
    return /^c\d+$/.test(audience) && Number(audience.slice(1)) < this.keeper.store.nextClient();
  }

  /** The person whom a link is for: of one that was joined with another, whom she turned out to be. */
  async #clientBehind(number: number, generation: number): Promise<Outcome<{ client: Client; now: Instant }>> {
    // A link that was signed was given out: the salon is no more.
    if (!this.keeper.exists) return fail({ code: "link-revoked" });
    const now = await this.wake();
    const { clients, nextClient } = this.keeper.state;
    const named = clients.get(`c${number}`);
    if (!named) return fail({ code: number < nextClient ? "link-revoked" : "link-unknown" });
    const fault = this.#linkFault(named.generation, generation);
    const client = clients.get(personOf(clients, named.id));
    return fault ?? (client ? succeed({ client, now }) : fail({ code: "link-unknown" }));
  }
}
