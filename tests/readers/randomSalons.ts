/**
 * A hundred salons made from one seed, each with a story: bookings around changes of the clocks, records, cancelled and
 * moved visits, diaries in trouble. Their feeds are made by the product's own path, and nothing here knows what a feed says.
 */
import type { FeedHead } from "../../src/feed/types.ts";
import { compileDesk, type SalonDesk } from "../../src/salon/desk.ts";
import { applyBookings } from "../../src/salon/applyBookings.ts";
import { horizonToday } from "../../src/salon/blockReads.ts";
import { emptyState } from "../../src/salon/emptyState.ts";
import { newDiary } from "../../src/salon/newDiary.ts";
import { type FeedForm, PLAIN } from "../../src/salon/feedForm.ts";
import { renderFeed } from "../../src/salon/renderFeed.ts";
import { change, settle, type Work } from "../../src/salon/settle.ts";
import type { Audience, Diary, State, StoredEvent } from "../../src/salon/types.ts";
import { DAY_SECONDS, HOUR, type Instant, parseInstant } from "../../src/time/instant.ts";
import { Dice } from "../fuzz/Dice.ts";
import type { Settings } from "../../src/settings.ts";
import { Zone } from "../../src/time/zone.ts";
import { randomSettings } from "./randomSettings.ts";
import { randomBookings, randomRecord } from "./randomStory.ts";

export const SEED = Number(process.env["READERS_SEED"] ?? 20_261_117);
export const SALONS = 100;

/** One feed as it is published, beside what the salon holds for it. */
export interface PublishedFeed {
  /** Also the name of its file: `s007`, `s007-c1`, `s007-utc`, `s007-tasks`. */
  readonly name: string;
  /** Whether its entries are to-dos. */
  readonly isTasks: boolean;
  readonly text: string;
  readonly head: FeedHead;
  readonly events: readonly StoredEvent[];
  readonly desk: SalonDesk;
}

const YEARS_FROM = parseInstant("2026-09-01T00:00:00Z") as Instant;
const YEARS_TO = parseInstant("2027-12-01T00:00:00Z") as Instant;
const AS_UTC: FeedForm = { ...PLAIN, utc: true };
const AS_TASKS: FeedForm = { ...PLAIN, tasks: true };
const NOTHING = { cancelled: new Set<string>(), unclear: new Set<string>() };

const deskOf = async (settings: Settings, number: number, year: number): Promise<SalonDesk> => {
  const place = { id: String(number).padStart(20, "0"), origin: "https://countback.test", linkSecret: "s" };
  const made = await compileDesk(settings, place, year);
  if (!made.ok) throw new Error(`the settings of salon ${number} are refused: ${JSON.stringify(made.refusals)}`);
  return made.desk;
};

/** A change of the clocks that the story goes around, or any moment where the zone has none. */
const pivotOf = (dice: Dice, zone: string): Instant => {
  const changes = (Zone.named(zone) as Zone).changes(YEARS_FROM, YEARS_TO);
  return changes.length > 0 ? dice.of(changes).at : YEARS_FROM + dice.below(YEARS_TO - YEARS_FROM);
};

const TROUBLES = ["unreadable", "held", null, null, null, null] as const;

/** What the salon knows of its diaries after a look at them. */
const lookAtDiaries = (dice: Dice, work: Work): void => {
  for (const [name, diary] of work.diaries) {
    const kind = dice.of(TROUBLES);
    const trouble = kind && { kind, since: work.at - dice.below(5 * DAY_SECONDS), why: { code: kind, text: kind } };
    const lastGood = name === "main" || dice.below(2) === 0 ? work.at : diary.lastGood;
    work.diaries.set(name, { ...diary, trouble, lastGood } satisfies Diary);
  }
  work.diariesTouched = true;
};

const storyOf = (dice: Dice, desk: SalonDesk, pivot: Instant): State => {
  const begin = pivot - (10 + dice.below(25)) * DAY_SECONDS;
  const diaries = desk.rules.settings.diaries.map(({ name }) => [name, newDiary(name, begin)] as const);
  let state: State = settle({ ...emptyState(begin), diaries: new Map(diaries) }, begin, desk);
  let bookings = randomBookings(dice, desk, pivot, []);
  let at = begin;
  const readings = 2 + dice.below(2);
  for (let reading = 0; reading < readings; reading++) {
    state = change(state, at, desk, (work) => {
      applyBookings(work, "main", { bookings, tests: [] }, NOTHING, horizonToday(desk.rules.zone, work.at));
      lookAtDiaries(dice, work);
    });
    for (let record = dice.below(4); record > 0; record--) {
      at += dice.below(4 * 24) * HOUR;
      state = change(state, at, desk, (work) => randomRecord(dice, work));
    }
    at += dice.below(6 * 24) * HOUR;
    bookings = randomBookings(dice, desk, pivot, bookings);
  }
  return settle(state, at + dice.below(5 * 24) * HOUR, desk);
};

const feedsOf = (state: State, desk: SalonDesk, salon: string, isWhole: boolean): readonly PublishedFeed[] => {
  const feed = (name: string, audience: Audience, choice?: FeedForm): PublishedFeed => ({
    name,
    isTasks: choice?.tasks ?? false,
    text: renderFeed(audience, state, desk, state.settledTo, choice).body,
    head: desk.headOf(state.clients.get(audience)),
    events: [...state.events.values()].filter((event) => event.audience === audience && event.shown),
    desk,
  });
  return [
    feed(salon, "salon"),
    ...(isWhole ? [feed(`${salon}-utc`, "salon", AS_UTC), feed(`${salon}-tasks`, "salon", AS_TASKS)] : []),
    ...[...state.clients.keys()].map((client) => feed(`${salon}-${client}`, client)),
  ];
};

/** Every feed of every salon: the salon's, each client's, and of every tenth salon its own once more in UTC and once as to-dos. */
export const publishSalons = async (): Promise<readonly PublishedFeed[]> => {
  const feeds: PublishedFeed[] = [];
  for (let number = 0; number < SALONS; number++) {
    const dice = new Dice(SEED + number);
    const settings = randomSettings(dice, number);
    const pivot = pivotOf(dice, settings.zone);
    const desk = await deskOf(settings, number, new Date(pivot * 1000).getUTCFullYear());
    const state = storyOf(dice, desk, pivot);
    feeds.push(...feedsOf(state, desk, `s${String(number).padStart(3, "0")}`, number % 10 === 0));
  }
  return feeds;
};
