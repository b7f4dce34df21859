/** Makes the skin tests of a reading those of the salon. Works on one state in change; books nothing and records nothing. */
import { HORIZON_AHEAD_DAYS, HORIZON_PAST_DAYS } from "../bounds.ts";
import type { FoundTest } from "../diary/findBookings.ts";
import type { Horizon } from "../diary/types.ts";
import { DAY_SECONDS, type Seconds } from "../time/instant.ts";
import type { Work } from "./settle.ts";
import { type DiaryTest, testKey } from "./types.ts";

/** No rule looks farther back from a colour than this, and no booking that has passed for longer is shown. */
const KEPT: Seconds = (HORIZON_AHEAD_DAYS + HORIZON_PAST_DAYS) * DAY_SECONDS;

/**
 * A test that has begun stays though the diary forgets it, as a booking does, unless it stands there under another key; so
 * does one that still stands there and is no longer understood.
 * @param unclear keys of entries that could not be understood
 */
export const applyTests = (
  work: Work,
  diary: string,
  found: readonly FoundTest[],
  unclear: ReadonlySet<string>,
  horizon: Horizon,
): void => {
  const seen = new Set<string>();
  const contents = new Set<string>();
  for (const { key, start, end, client } of found) {
    const id = testKey(diary, key);
    const { name, email, phone } = client;
    const after: DiaryTest = { key, diary, name, email, phone, start, end };
    seen.add(id);
    contents.add(contentOf(after));
    const before = work.tests.get(id);
    if (!before || !isSame(before, after)) work.tests.set(id, after);
  }
  for (const [id, test] of work.tests) {
    const isForgotten = test.diary === diary && !seen.has(id) && !unclear.has(test.key);
    const isCalledOff = isForgotten && test.start > work.at && test.start < horizon.to;
    const isRenamed = isForgotten && contents.has(contentOf(test));
    if (isCalledOff || isRenamed || test.start < work.at - KEPT) work.tests.delete(id);
  }
};

/** Equal for tests of one person at one time. */
const contentOf = ({ name, email, phone, start }: DiaryTest): string => JSON.stringify([name, email, phone, start]);

const isSame = (one: DiaryTest, other: DiaryTest): boolean =>
  (Object.keys(other) as (keyof DiaryTest)[]).every((field) => one[field] === other[field]);
