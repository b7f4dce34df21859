/** What may be asked about the diaries, their entries, and the plans that follow from them. */
import { COUNT_BACK_YEARS_MAX, ENTRY_TEXT_MAX } from "../bounds.ts";
import { type CommonTitle, commonTitles } from "../diary/commonTitles.ts";
import type { GivenAnswer } from "../diary/makeAnswer.ts";
import { clip } from "../feed/clip.ts";
import { countBack } from "../plan/countBack.ts";
import { type EarliestStart, earliestStarts } from "../plan/earliest.ts";
import type { BookingFacts, Fact, Plan } from "../plan/types.ts";
import { type Instant, yearOf } from "../time/instant.ts";
import { answerEntry, takeBackAnswer } from "./answers.ts";
import type { EntryAnswer } from "../diary/answers.ts";
import { type DiaryNews, newsOf } from "./diaryNews.ts";
import { changeSettings, removeDiary } from "./changeSettings.ts";
import {
  countEntries,
  type EntryChoice,
  type EntryCursor,
  type EntryShown,
  type EntryState,
  findEntries,
  listEntries,
} from "./entries.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import { instantOf, type PlanBound, type PlanChoice, plansOf, type PlanCursor } from "./plans.ts";
import { acceptHeld, reportsOf } from "./readings.ts";
import { pushDiary } from "./pushDiary.ts";
import { PushOrder } from "./PushOrder.ts";
import { rulesFor } from "./rulesFor.ts";
import type { DiaryReport } from "./types.ts";
import { SettingsFace } from "./SettingsFace.ts";

export abstract class DiaryFace extends SettingsFace {
  readonly #pushes = new PushOrder();

  /** Takes a pushed diary; a name not yet known becomes a new pushed diary of this salon, once it could be read. */
  async pushDiary(name: string, body: ReadableStream<Uint8Array>): Promise<Outcome<DiaryReport>> {
    const pushed = await pushDiary(this.keeper, this.#pushes, name, body, this.wake);
    await this.setAlarm();
    return pushed;
  }

  /** Takes a diary away, and its bookings ahead with it; what is on its way to it comes too late. */
  async dropDiary(name: string): Promise<Outcome<null>> {
    const held = await changeSettings(this.keeper, this.wake, () => removeDiary(this.keeper, name));
    if (!held.ok) return held;
    this.#pushes.takeAway(name);
    await this.setAlarm();
    return succeed(null);
  }

  /** @param since of the held reading that was looked at: another one is not accepted for it; null: whichever is held */
  async confirmDiary(name: string, since: Instant | null): Promise<Outcome<DiaryReport>> {
    const now = await this.wake();
    const diary = this.keeper.state.diaries.get(name);
    if (!diary) return fail({ code: "no-such-diary", known: [...this.keeper.state.diaries.keys()] });
    if (diary.held && since !== null && diary.held.since !== since) return fail({ code: "another-held", diary: name });
    const report = acceptHeld(this.keeper, name, now);
    await this.setAlarm();
    return report ? succeed(report) : fail({ code: "nothing-held", diary: name });
  }

  /**
   * Pulls every diary that has an address, due or not, and gives the last report of each. One whose upstream asked to be
   * left alone for a while is left alone, and its last report says so.
   */
  async refresh(): Promise<readonly DiaryReport[]> {
    await this.wake();
    await this.pullAll(this.keeper.settings.diaries);
    return reportsOf(this.keeper.state);
  }

  async reports(): Promise<readonly DiaryReport[]> {
    await this.wake();
    return reportsOf(this.keeper.state);
  }

  /** The last report of each diary, with what is known of it besides. */
  async diaryNews(): Promise<readonly DiaryNews[]> {
    await this.wake();
    return newsOf(this.keeper);
  }

  /** How many entries in sight were taken for what; `diary` null: of all diaries. */
  async entryCounts(diary: string | null): Promise<Readonly<Record<EntryState, number>>> {
    await this.wake();
    return countEntries(this.keeper, diary);
  }

  /** What people have said of entries and is kept, the newest first. */
  async answersGiven(): Promise<readonly EntryAnswer[]> {
    await this.wake();
    return [...this.keeper.state.answers.values()].toSorted((one, other) => other.at - one.at);
  }

  /** The entries of the diaries, and what each was taken for. */
  async entries(choice: EntryChoice): Promise<Outcome<{ entries: readonly EntryShown[]; next: EntryCursor | null }>> {
    await this.wake();
    const { diaries } = this.keeper.state;
    if (choice.diary !== null && !diaries.has(choice.diary))
      return fail({ code: "no-such-diary", known: [...diaries.keys()] });
    return succeed(listEntries(this.keeper, choice));
  }

  /** What the titles that no word matches say most often, each title cut short. */
  async commonTitles(limit: number): Promise<readonly CommonTitle[]> {
    await this.wake();
    const { keeper } = this;
    const { state, desk } = keeper;
    // One diary after the other, each let go as it is passed.
    const diaries = (function* () {
      for (const name of state.diaries.keys()) {
        yield [...findEntries(keeper, name)].filter((found) => found.kind === "entry");
      }
    })();
    const clients = [...state.clients.values()].map(({ name }) => name);
    return commonTitles(diaries, clients, desk.sorting, limit).map((title) => ({
      ...title,
      example: clip(title.example, ENTRY_TEXT_MAX),
    }));
  }

  /** A person's answer to an entry, kept for those like it; every diary is sorted anew by it. */
  async answerEntry(id: string, given: GivenAnswer): Promise<Outcome<EntryShown>> {
    const now = await this.wake();
    const answered = answerEntry(this.keeper, id, given, now);
    await this.setAlarm();
    return answered;
  }

  /** An answer taken back: the words, and other answers, decide again. */
  async takeBackAnswer(id: string): Promise<Outcome<null>> {
    const now = await this.wake();
    const forgotten = takeBackAnswer(this.keeper, id, now);
    await this.setAlarm();
    return forgotten;
  }

  async plans(choice: PlanChoice): Promise<{ plans: readonly Plan[]; next: PlanCursor | null }> {
    const now = await this.wake();
    return plansOf(this.keeper.state, this.keeper.desk.rules, choice, now);
  }

  /** A count-back by this salon's rules; nothing is stored. */
  async countBack(booking: BookingFacts, facts: readonly Fact[], now: Instant): Promise<Plan> {
    await this.wake();
    const rules = await rulesFor(this.keeper.desk, [booking.start, now]);
    return countBack({ booking, facts, samePerson: true, now }, rules);
  }

  /** The earliest start that each route allows a new client. `after` stands for now, and never earlier than it. */
  async earliest(after: PlanBound | null): Promise<Outcome<readonly EarliestStart[]>> {
    const now = await this.wake();
    const { desk } = this.keeper;
    const asked = instantOf(after, desk.rules.zone);
    if (asked !== null && yearOf(asked) - yearOf(now) > COUNT_BACK_YEARS_MAX) return fail({ code: "after-too-far" });
    const from = Math.max(now, asked ?? now);
    return succeed(earliestStarts(await rulesFor(desk, [from]), from));
  }
}
