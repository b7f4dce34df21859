/**
 * The load on one salon: several hands at once, each doing one thing after another by the dice until a kill ends them. What
 * is sent is written down before it goes out, what comes back as it comes.
 */
import type { Dice } from "../fuzz/Dice.ts";
import type { Bookings } from "./Appointments.ts";
import { type Answer, type Answered, type Caller, jsonOf } from "./Caller.ts";
import { OF_CLIENT, OF_SALON } from "./FeedLog.ts";
import type { Held, Write } from "./Held.ts";
import { type Sent, screeningKey, written } from "./Journal.ts";
import { askFeed } from "./judgeFeeds.ts";
import { settingsOf } from "./settingsOf.ts";
import type { Tally } from "./Tally.ts";
import { answersOf, recordOf, reportOf } from "./told.ts";
import { diaryPath, type WatchedDiary, type WatchedSalon } from "./WatchedSalon.ts";

const HANDS = 6;
/** A hand that finds nobody there tries again so soon. */
const AGAIN_MS = 5;

export class Load {
  readonly #salon: WatchedSalon;
  readonly #caller: Caller;
  readonly #dice: Dice;
  readonly #tally: Tally;
  readonly #ended: Promise<unknown>;
  #isOver = false;
  #acknowledged = Promise.withResolvers<void>();

  constructor(salon: WatchedSalon, caller: Caller, dice: Dice, tally: Tally) {
    this.#salon = salon;
    this.#caller = caller;
    this.#dice = dice;
    this.#tally = tally;
    this.#ended = Promise.all(Array.from({ length: HANDS }, () => this.#work()));
  }

  /** Nothing new is begun from here on. */
  stop(): void {
    this.#isOver = true;
  }

  /** When the next thing that was written is acknowledged: nobody has had less time to make it last. */
  async nextAcknowledged(): Promise<void> {
    this.#acknowledged = Promise.withResolvers<void>();
    await this.#acknowledged.promise;
  }

  /** When what was under way has been answered or cut. */
  async ended(): Promise<void> {
    this.stop();
    await this.#ended;
  }

  async #work(): Promise<void> {
    const todo = this.#todo();
    while (!this.#isOver) {
      const answer = await this.#dice.of(todo)();
      if (answer?.kind === "unsent") await new Promise((resolve) => setTimeout(resolve, AGAIN_MS));
      // A fault of the service's own is none that a kill excuses.
      if (answer?.kind === "answered" && answer.status >= 500) this.#tally.fault(`an answer was ${answer.status}`);
    }
  }

  /** Each as often as it is done. */
  #todo(): readonly (() => Promise<Answer | undefined>)[] {
    const times = (count: number, act: () => Promise<Answer | undefined>) => Array.from({ length: count }, () => act);
    return [
      ...times(8, () => this.#readFeed()),
      ...times(7, () => this.#record()),
      ...times(4, () => this.#report()),
      ...times(2, () => this.#answerQuestions()),
      ...times(4, () => this.#push(this.#dice.of(this.#salon.diaries))),
      ...times(2, () => this.#putSettings()),
      ...times(1, () => this.#drop(this.#salon.diaries.at(-1) as WatchedDiary)),
      ...times(1, () => this.#salon.ask(this.#caller, "GET", "/api/salon/plans?limit=20")),
    ];
  }

  async #readFeed(): Promise<Answer> {
    const salon = this.#salon;
    const client = this.#dice.below(2) === 0 ? undefined : this.#dice.of(salon.linked);
    const form = this.#dice.of(client ? OF_CLIENT : OF_SALON);
    return (await askFeed(salon, this.#caller, client, form)).answer;
  }

  #record(): Promise<Answer> {
    const note = this.#salon.journal.nextNote();
    const json = recordOf(this.#dice, this.#salon, note);
    const sent = this.#salon.journal.sendRecord(note, json);
    return this.#tell(sent, "records", this.#salon.ask(this.#caller, "POST", "/api/salon/records", { json }));
  }

  #report(): Promise<Answer> {
    const { id, page } = this.#dice.of(this.#salon.linked);
    const note = this.#salon.journal.nextNote();
    const json = reportOf(this.#dice, note);
    const sent = this.#salon.journal.sendRecord(note, { ...json, client: id, via: "client-link" });
    return this.#tell(sent, "records", this.#caller.ask("POST", `${page}/records`, { json }));
  }

  async #answerQuestions(): Promise<Answer> {
    const { id, page } = this.#dice.of(this.#salon.linked);
    const address = `${page}/screening`;
    const asked = await this.#caller.ask("GET", address, { headers: { accept: "application/json" } });
    if (asked.kind !== "answered" || asked.status !== 200) return asked;
    const { version, questions } = jsonOf(asked) as { version: number; questions: { id: string }[] };
    const ids = questions.map((question) => question.id);
    const answers = answersOf(this.#dice, ids, id, this.#salon.journal);
    const sent = this.#salon.journal.sendScreening(screeningKey(id, answers), { client: id, version });
    const json = { version, consent: true, answers };
    return this.#tell(sent, "screenings", this.#caller.ask("POST", address, { json }));
  }

  async #tell(sent: Sent, count: "records" | "screenings", asking: Promise<Answer>): Promise<Answer> {
    const answer = await asking;
    if (answer.kind === "unsent") sent.fate = "gone";
    else if (answer.status === 201) {
      sent.fate = "acknowledged";
      this.#acknowledged.resolve();
      if (answer.kind === "answered" && count === "records") sent.told = written(jsonOf(answer) as object);
      this.#tally.add(count);
    } else if (answer.status === null) sent.fate = "cut";
    else {
      sent.fate = "refused";
      this.#tally.add("refused");
    }
    return answer;
  }

  async #push({ name, book, held }: WatchedDiary): Promise<Answer> {
    book.change();
    const { text, bookings } = book.diary;
    const write = held.begin(bookings);
    const answer = await this.#salon.ask(this.#caller, "PUT", diaryPath(name), { calendar: text });
    // 202: held back as a careful reader would, since too much moved at once. A later push that has landed passes it.
    const isApplied = (whole: Answered): boolean =>
      whole.status === 200 && (jsonOf(whole) as { reason: { code: string } | null }).reason?.code !== "overtaken";
    this.#settle(held, write, answer, isApplied);
    if (write.isAcknowledged) this.#tally.add("pushes");
    if (answer.kind === "answered" && answer.status === 202) this.#tally.add("held");
    if (answer.kind === "answered" && ![200, 202, 404].includes(answer.status)) {
      this.#tally.fault(`a push was answered ${answer.status}: ${answer.body.toString("utf8").slice(0, 200)}`);
    }
    return answer;
  }

  async #drop({ name, held }: WatchedDiary): Promise<Answer> {
    const write: Write<Bookings | null> = held.begin(null);
    const answer = await this.#salon.ask(this.#caller, "DELETE", diaryPath(name));
    this.#settle(held, write, answer);
    if (write.isAcknowledged) this.#tally.add("drops");
    return answer;
  }

  async #putSettings(): Promise<Answer> {
    const { settings, versions } = this.#salon;
    const json = settingsOf(this.#dice, this.#salon.nextNumber());
    const write = settings.begin(json);
    const answer = await this.#salon.ask(this.#caller, "PUT", "/api/salon", { json });
    this.#settle(settings, write, answer);
    if (write.isAcknowledged) this.#tally.add("settings");
    const version = versionOf(answer);
    if (version === undefined) return answer;
    if (versions.has(version)) this.#tally.fault(`version ${version} of the settings was given twice`);
    versions.set(version, String(json["name"]));
    return answer;
  }

  /** @param holds whether a 2xx means that it holds */
  #settle<Value>(
    held: Held<Value>,
    write: Write<Value>,
    answer: Answer,
    holds: (whole: Answered) => boolean = () => true,
  ): void {
    if (answer.kind === "unsent") held.refuse(write);
    else if (answer.kind === "cut") held.cut(write);
    else if (answer.status < 300 && holds(answer)) {
      held.acknowledge(write);
      this.#acknowledged.resolve();
    } else held.refuse(write);
  }
}

/** The version that an answer's ETag names. */
export const versionOf = (answer: Answer): number | undefined => {
  if (answer.kind !== "answered" || answer.status !== 200) return undefined;
  return Number(/"settings-(\d+)"/.exec(answer.headers.etag ?? "")?.[1]);
};
