/** Makes the skin tests of a reading those of the salon. Works on one state in change; books nothing and records nothing. */
import type { FoundTest } from "../diary/findBookings.ts";
import type { Horizon } from "../diary/types.ts";
import { touchNamed, type Work } from "./settle.ts";
import { type DiaryTest, testKey } from "./types.ts";

/** A test that has begun stays though the diary forgets it, as a booking does; what is older than the horizon goes. */
export const applyTests = (work: Work, diary: string, found: readonly FoundTest[], horizon: Horizon): void => {
  const seen = new Set<string>();
  for (const { key, start, end, client } of found) {
    const id = testKey(diary, key);
    const { name, email, phone } = client;
    const after: DiaryTest = { key, diary, name, email, phone, start, end };
    seen.add(id);
    const before = work.tests.get(id);
    if (before && isSame(before, after)) continue;
    work.tests.set(id, after);
    touchNamed(work, name);
    if (before) touchNamed(work, before.name);
  }
  for (const [id, test] of work.tests) {
    if (test.diary !== diary || seen.has(id)) continue;
    const isCalledOff = test.start > work.at && test.start < horizon.to;
    if (isCalledOff || test.start < horizon.from) work.tests.delete(id);
    if (isCalledOff) touchNamed(work, test.name);
  }
};

const isSame = (one: DiaryTest, other: DiaryTest): boolean =>
  (Object.keys(other) as (keyof DiaryTest)[]).every((field) => one[field] === other[field]);
