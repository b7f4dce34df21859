/** How a salon's diaries follow its settings. Each works on one state in change. */
import type { Settings } from "../settings.ts";
import { withdrawBookings } from "./applyBookings.ts";
import { newDiary } from "./newDiary.ts";
import type { Work } from "./settle.ts";
import type { State } from "./types.ts";

/** Diaries follow the settings: new ones begin, dropped ones take their bookings with them. */
export const matchDiaries = (work: Work, settings: Settings): void => {
  const named = new Set(settings.diaries.map(({ name }) => name));
  for (const name of work.diaries.keys()) if (!named.has(name)) dropDiary(work, name);
  for (const name of named) {
    const diary = work.diaries.get(name) ?? newDiary(name, work.at);
    // Set anew, so that they stand in the order of the settings.
    work.diaries.delete(name);
    work.diaries.set(name, diary);
  }
  work.diariesTouched = true;
};

/** Diaries are read and listed in the order of the settings, after a restart as before it. */
export const inOrder = (state: State, settings: Settings): State => {
  const named = settings.diaries.flatMap(({ name }) => state.diaries.get(name) ?? []);
  return { ...state, diaries: new Map([...named, ...state.diaries.values()].map((diary) => [diary.name, diary])) };
};

/** What is read of a text may have grown: "nothing has changed" would be an answer to a question of before. */
export const askWhole = (work: Work): void => {
  for (const [name, diary] of work.diaries) work.diaries.set(name, { ...diary, etag: null, lastModified: null });
};

/** A diary at another address is asked anew: nothing the old one said of its state holds, and nothing of it is held. */
export const forgetMovedDiaries = (work: Work, before: Settings, after: Settings): void => {
  const urls = new Map(before.diaries.map(({ name, url }) => [name, url]));
  for (const { name, url } of after.diaries) {
    const diary = work.diaries.get(name);
    if (!diary || !urls.has(name) || urls.get(name) === url) continue;
    work.diaries.set(name, {
      ...diary,
      etag: null,
      lastModified: null,
      failures: 0,
      nextPoll: work.at,
      restUntil: null,
      held: null,
      trouble: diary.held ? null : diary.trouble,
      calendarName: null,
      producer: null,
    });
  }
};

const dropDiary = (work: Work, name: string): void => {
  work.diaries.delete(name);
  for (const [id, test] of work.tests) if (test.diary === name && test.start > work.at) work.tests.delete(id);
  withdrawBookings(work, name);
};
