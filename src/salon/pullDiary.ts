/** Pulls one diary and takes, keeps or refuses what comes; then says when it is pulled next. */
import type { DiarySettings } from "../settings.ts";
import type { Instant } from "../time/instant.ts";
import { type Fetched, fetchDiary } from "./fetchDiary.ts";
import type { Keeper } from "./keeper.ts";
import { horizonToday } from "./blockReads.ts";
import { diaryOf, type Indexed, indexStream, keepReading, refuseReading, takeReading } from "./readings.ts";
import { jitterOf, nextPollAt } from "./schedule.ts";
import type { Diary } from "./types.ts";

/**
 * Does nothing where the diary has no address, has left the settings while it was asked, or is still to be left alone.
 * @param wake settles the salon and gives the present instant; asked again once the answer is there
 */
export const pullDiary = async (
  keeper: Keeper,
  settings: DiarySettings,
  wake: () => Promise<Instant>,
): Promise<void> => {
  const { name, url } = settings;
  const began = await wake();
  if (!url || !isStillAsked(keeper, settings)) return;
  const { etag, lastModified, restUntil, failures, begun } = diaryOf(keeper, name);
  if (restUntil !== null && began < restUntil) return;
  const number = begun + 1;
  // Until it is over it counts as failed: what ends this object meanwhile must not have it asked again at once.
  planNext(keeper, settings, { failures: failures + 1, begun: number }, null, began);
  const fetched = await fetchDiary(url, { etag, lastModified }, keeper.surroundings.allowLocal, began);
  const indexed =
    fetched.kind === "body" ? await indexStream(fetched.body, horizonToday(keeper.desk.rules.zone, began)) : undefined;
  const now = await wake();
  // What another address answered, or a diary that is gone meanwhile, is nobody's reading any more.
  if (!isStillAsked(keeper, settings) || diaryOf(keeper, name).begun < number) return;
  const isGood = apply(keeper, name, number, fetched, indexed, now);
  planNext(keeper, settings, { failures: isGood ? 0 : failures + 1 }, retryAfterOf(fetched), now);
};

/** Whether the salon keeps the diary, at the address it had. */
const isStillAsked = (keeper: Keeper, { name, url }: DiarySettings): boolean =>
  keeper.state.diaries.has(name) && keeper.settings.diaries.find((each) => each.name === name)?.url === url;

/** Notes when the diary is pulled next, and with it what else is new of it. */
const planNext = (
  keeper: Keeper,
  settings: DiarySettings,
  news: Pick<Diary, "failures"> & Partial<Pick<Diary, "begun">>,
  retryAfter: number | null,
  now: Instant,
): void => {
  const jitter = jitterOf(`${keeper.desk.rules.namespace} ${settings.name}`);
  const nextPoll = nextPollAt(settings, news.failures, retryAfter, now, jitter);
  const restUntil = retryAfter === null ? null : now + retryAfter;
  const diary = diaryOf(keeper, settings.name);
  keeper.change(now, (work) => work.diaries.set(settings.name, { ...diary, ...news, nextPoll, restUntil }));
};

const retryAfterOf = (fetched: Fetched): number | null =>
  fetched.kind === "fault" && fetched.fault.code === "answered-badly" ? fetched.fault.retryAfterSeconds : null;

/** Whether the diary was reached and could be read, held readings included. */
const apply = (
  keeper: Keeper,
  name: string,
  number: number,
  fetched: Fetched,
  indexed: Indexed | undefined,
  now: Instant,
): boolean => {
  if (fetched.kind === "unchanged") {
    keepReading(keeper, name, number, now);
    return true;
  }
  if (fetched.kind === "fault" || !indexed || "refusal" in indexed) {
    const noAnswer = { code: "no-answer" } as const;
    const fault =
      fetched.kind === "fault" ? fetched.fault : indexed && "refusal" in indexed ? indexed.refusal : noAnswer;
    refuseReading(keeper, name, number, fault, now);
    return false;
  }
  const { etag, lastModified } = fetched;
  takeReading(keeper, name, indexed, { number, trusted: false, etag, lastModified }, now);
  return true;
};
