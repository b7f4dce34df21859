/** Pulls one diary and takes, keeps or refuses what comes; then says when it is pulled next. */
import type { DiarySettings } from "../settings.ts";
import type { Instant } from "../time/instant.ts";
import { type Fetched, fetchDiary } from "./fetchDiary.ts";
import type { Keeper } from "./keeper.ts";
import { horizonToday } from "./readBlocks.ts";
import {
  beginReading,
  diaryOf,
  type Indexed,
  indexStream,
  keepReading,
  refuseReading,
  takeReading,
} from "./readings.ts";
import { jitterOf, nextPollAt } from "./schedule.ts";

/**
 * Does nothing where the diary has no address, or has left the settings while it was asked.
 * @param wake settles the salon and gives the present instant; asked again once the answer is there
 */
export const pullDiary = async (
  keeper: Keeper,
  settings: DiarySettings,
  wake: () => Promise<Instant>,
): Promise<void> => {
  const { name, url } = settings;
  if (!url) return;
  const began = await wake();
  const number = beginReading(keeper, name, began);
  const { etag, lastModified } = diaryOf(keeper, name);
  const fetched = await fetchDiary(url, { etag, lastModified }, keeper.surroundings.allowLocal, began * 1000);
  const indexed =
    fetched.kind === "body" ? await indexStream(fetched.body, horizonToday(keeper.desk.rules.zone, began)) : undefined;
  const now = await wake();
  // What another address answered, or a diary that is gone meanwhile, is nobody's reading any more.
  if (keeper.settings.diaries.find((each) => each.name === name)?.url !== url) return;
  const isGood = apply(keeper, name, number, fetched, indexed, now);
  keeper.change(now, (work) => {
    const read = diaryOf(keeper, name);
    const failures = isGood ? 0 : read.failures + 1;
    const jitter = jitterOf(`${keeper.desk.rules.namespace} ${name}`);
    const nextPoll = nextPollAt(settings, failures, retryAfterOf(fetched), now, jitter);
    work.diaries.set(name, { ...read, failures, nextPoll });
  });
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
    keepReading(keeper, name, now);
    return true;
  }
  if (fetched.kind === "fault" || !indexed || "refusal" in indexed) {
    const noAnswer = { code: "no-answer" } as const;
    const fault =
      fetched.kind === "fault" ? fetched.fault : indexed && "refusal" in indexed ? indexed.refusal : noAnswer;
    refuseReading(keeper, name, fault, now);
    return false;
  }
  const { etag, lastModified } = fetched;
  takeReading(keeper, name, indexed, { number, trusted: false, etag, lastModified }, now);
  return true;
};
