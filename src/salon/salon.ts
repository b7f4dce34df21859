/**
 * The salon's Durable Object: one salon, its state, its one alarm. The only place that asks the clock. Its methods are
 * what web/ may ask of a salon; each first settles up to now, then answers. Makes no words; of HTTP it knows only how
 * a feed is answered.
 */
import { DurableObject } from "cloudflare:workers";
import { COUNT_BACK_YEARS_MAX, PULLS_AT_ONCE } from "../bounds.ts";
import type { GivenAnswer } from "../diary/makeAnswer.ts";
import type { Person } from "../diary/types.ts";
import { countBack } from "../plan/countBack.ts";
import { type EarliestStart, earliestStarts } from "../plan/earliest.ts";
import type { BookingFacts, Fact, Plan } from "../plan/types.ts";
import type { DiarySettings, Settings } from "../settings.ts";
import { type Instant, type Wall, yearOf } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { answerEntry, takeBackAnswer } from "./answers.ts";
import { askQuestions, type QuestionsAsked } from "./askQuestions.ts";
import { changeSettings, type HeldSettings, removeDiary, replaceSettings } from "./changeSettings.ts";
import { addClientByHand } from "./addClientByHand.ts";
import { confirmClient, type Decider, joinClients, partClients, splitClient } from "./clientDecisions.ts";
import {
  addRequest,
  answerRequest,
  type ClientExport,
  exportClient,
  longestOf,
  type RequestKept,
} from "./clientExport.ts";
import { clientLink } from "./clientLink.ts";
import { type ClientBrief, type ClientChoice, type ClientShown, listClients, showClient } from "./clientList.ts";
import { type ConsentHeld, consentOf, type ConsentSaid, withdrawConsent } from "./consent.ts";
import { type EntryChoice, type EntryCursor, type EntryShown, listEntries } from "./entries.ts";
import { eraseClient, type Erasure, WaitingErasures } from "./erasure.ts";
import { type Evidence, evidenceOf } from "./evidence.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import { askOf, isHeld } from "./feedAsk.ts";
import { FeedFront } from "./feedFront.ts";
import { Keeper } from "./keeper.ts";
import { maskSettings, unmaskSettings } from "./maskAddress.ts";
import { type PlanChange, previewSettings } from "./previewSettings.ts";
import { EVERY_PLAN, instantOf, type PlanBound, type PlanChoice, plansOf } from "./plans.ts";
import { acceptHeld, diaryOf, repeatReading, reportsOf } from "./readings.ts";
import { nextAlarm } from "./nextAlarm.ts";
import { pullDiary } from "./pullDiary.ts";
import { PullQueue } from "./PullQueue.ts";
import { pushDiary } from "./pushDiary.ts";
import { PushOrder } from "./PushOrder.ts";
import { type Imported, type ImportLine, importRecords } from "./importRecords.ts";
import { listLog, listRecords, type LogEntry, type Page, type RecordChoice } from "./recordList.ts";
import { addClientRecord, addRecord, type FactDraft } from "./records.ts";
import { rulesFor } from "./rulesFor.ts";
import { type Answered, answerQuestions, type GivenAnswers } from "./screening.ts";
import { listScreenings, type ScreeningChoice, type ScreeningShown } from "./screenings.ts";
import { doOnce, type Once } from "./once.ts";
import { personOf } from "./owners.ts";
import type { Client, DiaryReport, Recorded, RequestKind } from "./types.ts";

export interface SalonEnv {
  readonly LINK_SECRET: string;
  readonly ALLOW_LOCAL_DIARIES?: string;
  /** `https://countback.example`: the origin written into links; absent: that of the request. */
  readonly PUBLIC_ORIGIN?: string;
}

export interface ClientPage {
  readonly settings: Settings;
  readonly client: { readonly id: string; readonly name: string };
  readonly plans: readonly Plan[];
  /** Her agreement that her health answers are kept; null: she was never asked. */
  readonly consent: ConsentHeld | null;
  readonly now: Instant;
}

const secondsNow = (): Instant => Math.floor(Date.now() / 1000);
const yearNow = (): number => new Date().getUTCFullYear();

export class Salon extends DurableObject<SalonEnv> {
  readonly #keeper: Keeper;
  readonly #front: FeedFront;
  readonly #pulls = new PullQueue(PULLS_AT_ONCE);
  readonly #pushes = new PushOrder();
  readonly #erasures = new WaitingErasures();

  constructor(ctx: DurableObjectState, env: SalonEnv) {
    super(ctx, env);
    this.#keeper = new Keeper(ctx.storage, {
      linkSecret: env.LINK_SECRET,
      allowLocal: env.ALLOW_LOCAL_DIARIES === "true",
      publicOrigin: env.PUBLIC_ORIGIN ?? null,
    });
    this.#front = new FeedFront(this.#keeper.store, env.PUBLIC_ORIGIN ?? null);
  }

  /**
   * Makes this object a salon; `feedGeneration` is that of its first feed link.
   * @param print of the request that may be sent again, and is then answered as the first time; null: it may not
   */
  async create(
    id: string,
    origin: string,
    settings: Settings,
    keyHash: string,
    print: string | null,
  ): Promise<Outcome<{ feedGeneration: number }>> {
    if (this.#keeper.exists) return this.#keeper.madeBefore(keyHash, print, secondsNow());
    const made = await this.#keeper.compile(settings, yearNow());
    if (!made.ok) return fail({ code: "settings-refused", refusals: made.refusals });
    const at = secondsNow();
    this.#keeper.create({ id, origin, settings, keyHash, print }, at);
    await this.#wake();
    return succeed({ feedGeneration: 1 });
  }

  /** Whether a key, hashed, opens this salon. */
  holdsKey(hash: string): boolean {
    return this.#keeper.exists && this.#keeper.store.hasKey(hash);
  }

  /** The settings as they leave the salon: no diary's address shows its user and password. */
  async settings(): Promise<{ version: number; settings: Settings; feedGeneration: number }> {
    await this.#wake();
    return {
      version: this.#keeper.version,
      settings: maskSettings(this.#keeper.settings),
      feedGeneration: Number(this.#keeper.store.meta("feed-generation")),
    };
  }

  /**
   * A diary's address that comes as it was shown stands for the one that is stored.
   * @param ifVersions those the caller has seen, or null where it does not say
   */
  async putSettings(given: Settings, ifVersions: readonly number[] | null): Promise<Outcome<HeldSettings>> {
    const keeper = this.#keeper;
    const held = await changeSettings(keeper, this.#wake, () => replaceSettings(keeper, given, ifVersions));
    if (!held.ok) return held;
    const now = await this.#wake();
    for (const name of keeper.state.diaries.keys()) repeatReading(keeper, name, now);
    await this.#setAlarm();
    return succeed({ version: held.value.version, settings: maskSettings(held.value.settings) });
  }

  /**
   * Erases the salon and all that it keeps, its clients' records among it; nothing of it can be had again.
   * @param ifVersions of the settings, as in `putSettings`
   */
  async eraseSalon(ifVersions: readonly number[] | null): Promise<Outcome<null>> {
    await this.#wake();
    if (ifVersions !== null && !ifVersions.includes(this.#keeper.version))
      return fail({ code: "settings-changed-meanwhile" });
    await this.ctx.storage.deleteAlarm();
    await this.ctx.storage.deleteAll();
    this.#keeper.forget();
    return succeed(null);
  }

  /** What these settings would change; changes nothing. */
  async previewSettings(settings: Settings): Promise<Outcome<readonly PlanChange[]>> {
    const now = await this.#wake();
    const made = await this.#keeper.compile(unmaskSettings(settings, this.#keeper.settings), yearNow());
    if (!made.ok) return fail({ code: "settings-refused", refusals: made.refusals });
    return succeed(previewSettings(this.#keeper.state, this.#keeper.desk.rules, made.desk.rules, now));
  }

  /** Takes a pushed diary; a name not yet known becomes a new pushed diary of this salon, once it could be read. */
  async pushDiary(name: string, body: ReadableStream<Uint8Array>): Promise<Outcome<DiaryReport>> {
    const pushed = await pushDiary(this.#keeper, this.#pushes, name, body, this.#wake);
    await this.#setAlarm();
    return pushed;
  }

  /** Takes a diary away, and its bookings ahead with it; what is on its way to it comes too late. */
  async dropDiary(name: string): Promise<Outcome<null>> {
    const held = await changeSettings(this.#keeper, this.#wake, () => removeDiary(this.#keeper, name));
    if (!held.ok) return held;
    this.#pushes.takeAway(name);
    await this.#setAlarm();
    return succeed(null);
  }

  async confirmDiary(name: string): Promise<Outcome<DiaryReport>> {
    const now = await this.#wake();
    if (!this.#keeper.state.diaries.has(name))
      return fail({ code: "no-such-diary", known: [...this.#keeper.state.diaries.keys()] });
    const report = acceptHeld(this.#keeper, name, now);
    await this.#setAlarm();
    return report ? succeed(report) : fail({ code: "nothing-held", diary: name });
  }

  /**
   * Pulls every diary that has an address, due or not, and gives the last report of each. One whose upstream asked to be
   * left alone for a while is left alone, and its last report says so.
   */
  async refresh(): Promise<readonly DiaryReport[]> {
    await this.#wake();
    await this.#pullAll(this.#keeper.settings.diaries);
    return reportsOf(this.#keeper.state);
  }

  async reports(): Promise<readonly DiaryReport[]> {
    await this.#wake();
    return reportsOf(this.#keeper.state);
  }

  /** The entries of the diaries, and what each was taken for. */
  async entries(choice: EntryChoice): Promise<Outcome<{ entries: readonly EntryShown[]; next: EntryCursor | null }>> {
    await this.#wake();
    const { diaries } = this.#keeper.state;
    if (choice.diary !== null && !diaries.has(choice.diary))
      return fail({ code: "no-such-diary", known: [...diaries.keys()] });
    return succeed(listEntries(this.#keeper, choice));
  }

  /** A person's answer to an entry, kept for those like it; every diary is sorted anew by it. */
  async answerEntry(id: string, given: GivenAnswer): Promise<Outcome<EntryShown>> {
    const now = await this.#wake();
    const answered = answerEntry(this.#keeper, id, given, now);
    await this.#setAlarm();
    return answered;
  }

  /** An answer taken back: the words, and other answers, decide again. */
  async takeBackAnswer(id: string): Promise<Outcome<null>> {
    const now = await this.#wake();
    const forgotten = takeBackAnswer(this.#keeper, id, now);
    await this.#setAlarm();
    return forgotten;
  }

  async plans(choice: PlanChoice): Promise<{ plans: readonly Plan[]; next: string | null }> {
    const now = await this.#wake();
    return plansOf(this.#keeper.state, this.#keeper.desk.rules, choice, now);
  }

  async records(choice: RecordChoice): Promise<Page<Recorded>> {
    await this.#wake();
    return listRecords(this.#keeper.state, choice);
  }

  /** All that is on file about one appointment. */
  async evidence(booking: string): Promise<Outcome<Evidence>> {
    const now = await this.#wake();
    return evidenceOf(this.#keeper, booking, now);
  }

  /** The same with the name that each record is under; `next` as in `records`. */
  async recordLog(choice: RecordChoice): Promise<Page<LogEntry>> {
    await this.#wake();
    return listLog(this.#keeper.state, choice);
  }

  async importRecords(lines: readonly ImportLine[], isDryRun: boolean, once: Once | null): Promise<Outcome<Imported>> {
    const now = await this.#wake();
    const imported = importRecords(this.#keeper, lines, isDryRun, once, now);
    await this.#setAlarm();
    return imported;
  }

  async addRecord(draft: FactDraft, once: Once | null): Promise<Outcome<Recorded>> {
    const now = await this.#wake();
    const added = this.#recordOnce(once, now, () => addRecord(this.#keeper, draft, now));
    await this.#setAlarm();
    return added;
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
    const { now } = found.value;
    const when = pressed?.when ?? null;
    const at = when === null ? draft.at : this.#zone().firstReading(when);
    const id = `c${number}`;
    const added = this.#recordOnce(once, now, () =>
      addClientRecord(this.#keeper, id, { ...draft, at }, pressed !== null, now),
    );
    await this.#setAlarm();
    return added;
  }

  /** A count-back by this salon's rules; nothing is stored. */
  async countBack(booking: BookingFacts, facts: readonly Fact[], now: Instant): Promise<Plan> {
    await this.#wake();
    const rules = await rulesFor(this.#keeper.desk, [booking.start, now]);
    return countBack({ booking, facts, samePerson: true, now }, rules);
  }

  /** The earliest start that each route allows a new client. `after` stands for now, and never earlier than it. */
  async earliest(after: PlanBound | null): Promise<Outcome<readonly EarliestStart[]>> {
    const now = await this.#wake();
    const { desk } = this.#keeper;
    const asked = instantOf(after, desk.rules.zone);
    if (asked !== null && yearOf(asked) - yearOf(now) > COUNT_BACK_YEARS_MAX) return fail({ code: "after-too-far" });
    const from = Math.max(now, asked ?? now);
    return succeed(earliestStarts(await rulesFor(desk, [from]), from));
  }

  /** Another key in place of the one before, which opens nothing from here on. */
  renewKey(hash: string): void {
    this.#keeper.renewKey(hash, secondsNow());
  }

  /** Another link for the salon's feed; those before it are revoked. */
  renewFeed(): { readonly feedGeneration: number } {
    return { feedGeneration: this.#keeper.renewFeed() };
  }

  async clients(choice: ClientChoice): Promise<Page<ClientBrief>> {
    await this.#wake();
    return listClients(this.#keeper.state, choice);
  }

  async client(id: string): Promise<Outcome<ClientShown>> {
    await this.#wake();
    return this.#shown(succeed(id));
  }

  /** One who is known by name and address, or by her bare name where nobody of it has one, is no new client. */
  async addClient(person: Person, once: Once | null): Promise<Outcome<{ shown: ClientShown; isNew: boolean }>> {
    const now = await this.#wake();
    const added = addClientByHand(this.#keeper, person, once, now);
    if (!added.ok) return added;
    const shown = this.#shown(succeed(added.value.id));
    return shown.ok ? succeed({ shown: shown.value, isNew: added.value.isNew }) : shown;
  }

  async confirmClient(id: string, decider: Decider): Promise<Outcome<ClientShown>> {
    return this.#decide((now) => confirmClient(this.#keeper, id, decider, now));
  }

  async joinClients(id: string, other: string, decider: Decider): Promise<Outcome<ClientShown>> {
    return this.#decide((now) => joinClients(this.#keeper, id, other, decider, now));
  }

  async partClients(id: string, other: string, decider: Decider): Promise<Outcome<ClientShown>> {
    return this.#decide((now) => partClients(this.#keeper, id, other, decider, now));
  }

  /** Gives the client whose the bookings are now. */
  async splitClient(
    id: string,
    bookings: readonly string[],
    decider: Decider,
    once: Once | null,
  ): Promise<Outcome<ClientShown>> {
    return this.#decide((now) =>
      doOnce(this.#keeper, once, now, {
        run: () => splitClient(this.#keeper, id, bookings, decider, now),
        keep: (made) => ({ told: made, client: made }),
        again: (told) => String(told),
      }),
    );
  }

  async addRequest(
    id: string,
    request: { readonly what: RequestKind; readonly received: number | null },
    decider: Decider,
    once: Once | null,
  ): Promise<Outcome<RequestKept>> {
    const now = await this.#wake();
    return doOnce(this.#keeper, once, now, {
      run: () => addRequest(this.#keeper, id, request, decider, now),
      keep: ({ deed }) => ({ told: deed.id, client: deed.client }),
      again: (told) => {
        const deed = this.#keeper.state.deeds.get(String(told));
        return deed && { deed, longest: longestOf(this.#keeper, deed) };
      },
    });
  }

  async answerRequest(id: string, request: string, decider: Decider): Promise<Outcome<ClientShown>> {
    return this.#decide((now) => answerRequest(this.#keeper, id, request, decider, now));
  }

  async exportClient(id: string): Promise<Outcome<ClientExport>> {
    const now = await this.#wake();
    return exportClient(this.#keeper, id, now);
  }

  async eraseClient(id: string, evidence: boolean, decider: Decider): Promise<Outcome<Erasure>> {
    const now = await this.#wake();
    const erased = eraseClient(this.#keeper, id, evidence, decider, now);
    await this.#setAlarm();
    return erased;
  }

  /** What a client's link is made of; `renew` revokes the one before. */
  async clientLink(id: string, renew: boolean): Promise<Outcome<{ number: number; generation: number }>> {
    const now = await this.#wake();
    return clientLink(this.#keeper, id, renew, now);
  }

  /** Answers for a feed, whole: as it is stored where nothing has changed since, otherwise made anew first. */
  override async fetch(request: Request): Promise<Response> {
    const ask = askOf(request, this.#keeper.surroundings.linkSecret);
    if (!ask) return new Response(null, { status: 404 });
    let found = this.#front.find(ask.audience, ask.form, secondsNow());
    if (found === undefined && this.#keeper.exists) found = this.#front.find(ask.audience, ask.form, secondsNow());
    const fault = this.#linkFault(found?.generation ?? undefined, ask.generation);
    if (fault && (!this.#keeper.exists || this.#isGone(ask.audience))) return new Response(null, { status: 410 });
    if (fault || !found) return new Response(null, { status: fault?.fault.code === "link-revoked" ? 410 : 404 });
    const { audience } = found;
    let { feed } = found;
    if (!feed) {
      const now = await this.#wake();
      this.#keeper.makeFeed(audience, ask.form, now);
      feed = this.#front.find(audience, ask.form, now)?.feed ?? null;
    }
    if (!feed) throw new Error("a feed that was just made is not what would be said");
    const headers = this.#front.headers(ask, feed, secondsNow());
    if (isHeld(ask, feed)) return new Response(null, { status: 304, headers });
    const octets = this.#front.octets(audience, ask.form);
    if (request.method !== "HEAD") return new Response(octets, { headers });
    return new Response(null, { headers: { ...Object.fromEntries(headers), "content-length": String(octets.length) } });
  }

  async clientPage(number: number, generation: number): Promise<Outcome<ClientPage>> {
    const found = await this.#clientBehind(number, generation);
    if (!found.ok) return found;
    const { client, now } = found.value;
    const { state, settings, desk } = this.#keeper;
    const { plans } = plansOf(state, desk.rules, { ...EVERY_PLAN, client: client.id }, now);
    const consent = consentOf(state, client.id);
    return succeed({ settings, client: { id: client.id, name: client.name }, plans, consent, now });
  }

  /** @param appointment the UID of an appointment's `colour` event; null: her next one is meant */
  async questions(number: number, generation: number, appointment: string | null): Promise<Outcome<QuestionsAsked>> {
    const found = await this.#clientBehind(number, generation);
    if (!found.ok) return found;
    return succeed(askQuestions(this.#keeper, found.value.client, appointment, found.value.now));
  }

  async answerQuestions(
    number: number,
    generation: number,
    given: GivenAnswers,
    once: Once | null,
  ): Promise<Outcome<Answered>> {
    const found = await this.#clientBehind(number, generation);
    if (!found.ok) return found;
    const { client, now } = found.value;
    const answered = doOnce(this.#keeper, once, now, {
      run: () => answerQuestions(this.#keeper, client, given, now),
      keep: (told) => ({ told, client: client.id }),
      again: (told) => told as Answered,
    });
    await this.#setAlarm();
    return answered;
  }

  /** Her agreement to keep her health answers, taken back. */
  async withdrawConsent(number: number, generation: number): Promise<Outcome<ConsentSaid>> {
    const found = await this.#clientBehind(number, generation);
    return found.ok ? succeed(withdrawConsent(this.#keeper, found.value.client, found.value.now)) : found;
  }

  async screenings(choice: ScreeningChoice): Promise<{ screenings: readonly ScreeningShown[]; next: string | null }> {
    await this.#wake();
    return listScreenings(this.#keeper.state, choice);
  }

  override async alarm(): Promise<void> {
    if (!this.#keeper.exists) return;
    const now = await this.#wake();
    const isDue = ({ name }: DiarySettings): boolean => (diaryOf(this.#keeper, name).nextPoll ?? now + 1) <= now;
    await this.#pullAll(this.#keeper.settings.diaries.filter(isDue), () => this.#moveHorizons(secondsNow()));
  }

  /** Ready, and settled up to the instant it returns. */
  readonly #wake = async (): Promise<Instant> => {
    const keeper = this.#keeper;
    const isAnew = await keeper.ready(secondsNow());
    const now = Math.max(secondsNow(), keeper.state.settledTo);
    keeper.settle(now);
    if (isAnew) for (const name of keeper.state.diaries.keys()) repeatReading(keeper, name, now);
    this.#erasures.goOn(keeper, now);
    if ((await this.ctx.storage.getAlarm()) === null) await this.#setAlarm();
    return now;
  };

  /** @param afterwards what is to be done whatever came of the pulls, before the alarm is set */
  async #pullAll(diaries: readonly DiarySettings[], afterwards: () => void = () => {}): Promise<void> {
    const pulls = await Promise.allSettled(
      diaries
        .filter(({ url }) => url)
        .map((diary) =>
          this.#pulls.add(`${diary.name}\n${diary.url}`, () => pullDiary(this.#keeper, diary, this.#wake)),
        ),
    );
    afterwards();
    await this.#setAlarm();
    // A fault of this code in one pull is still a fault, but first the other diaries and the next alarm get their due.
    for (const pull of pulls) if (pull.status === "rejected") throw pull.reason;
  }

  /** The horizon moves with the days: what comes into it is read from the stored text. */
  #moveHorizons(now: Instant): void {
    const today = this.#zone().dayAt(now);
    for (const { name, horizonDay } of this.#keeper.state.diaries.values()) {
      if (horizonDay !== null && horizonDay < today) repeatReading(this.#keeper, name, now);
    }
  }

  async #decide(decision: (now: Instant) => Outcome<string>): Promise<Outcome<ClientShown>> {
    const now = await this.#wake();
    const decided = decision(now);
    await this.#setAlarm();
    return this.#shown(decided);
  }

  #recordOnce(once: Once | null, now: Instant, run: () => Outcome<Recorded>): Outcome<Recorded> {
    return doOnce(this.#keeper, once, now, {
      run,
      keep: ({ id, client }) => ({ told: id, client }),
      again: (told) => this.#keeper.state.facts.get(String(told)),
    });
  }

  #shown(id: Outcome<string>): Outcome<ClientShown> {
    if (!id.ok) return id;
    const shown = showClient(this.#keeper.state, id.value);
    return shown ? succeed(shown) : fail({ code: "no-such-client" });
  }

  async #setAlarm(): Promise<void> {
    if (!this.#keeper.exists) return;
    this.#erasures.goOn(this.#keeper, this.#keeper.state.settledTo);
    const at = nextAlarm(this.#keeper);
    if (at !== null) await this.ctx.storage.setAlarm(at * 1000);
  }

  #linkFault(current: number | undefined, given: number) {
    if (current === undefined || !(given <= current)) return fail({ code: "link-unknown" });
    return given < current ? fail({ code: "link-revoked" }) : undefined;
  }

  /** Whether such a client was here once: her links were valid. */
  #isGone(audience: string): boolean {
    return /^c\d+$/.test(audience) && Number(audience.slice(1)) < this.#keeper.store.nextClient();
  }

  /** The person whom a link is for: of one that was joined with another, whom she turned out to be. */
  async #clientBehind(number: number, generation: number): Promise<Outcome<{ client: Client; now: Instant }>> {
    // A link that was signed was given out: the salon is no more.
    if (!this.#keeper.exists) return fail({ code: "link-revoked" });
    const now = await this.#wake();
    const { clients, nextClient } = this.#keeper.state;
    const named = clients.get(`c${number}`);
    if (!named) return fail({ code: number < nextClient ? "link-revoked" : "link-unknown" });
    const fault = this.#linkFault(named.generation, generation);
    const client = clients.get(personOf(clients, named.id));
    return fault ?? (client ? succeed({ client, now }) : fail({ code: "link-unknown" }));
  }

  #zone(): Zone {
    return this.#keeper.desk.rules.zone;
  }
}
