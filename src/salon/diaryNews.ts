/** The diaries as the desk sees them: the last report of each, what is known of it besides, and what it holds now. */
import { ENTRIES_SHOWN } from "../bounds.ts";
import { reportsOf } from "./diaryReports.ts";
import { countEntries, type EntryShown, type EntryState, listEntries } from "./entries.ts";
import type { Keeper } from "./keeper.ts";
import type { Diary, DiaryReport } from "./types.ts";

export interface DiaryNews extends Pick<Diary, "lastGood" | "nextPoll" | "calendarName" | "producer"> {
  readonly report: DiaryReport;
  /** Entries in sight by what they were taken for, whatever the last report was of. */
  readonly counts: Readonly<Record<EntryState, number>>;
  /** The first of those that could not be read. */
  readonly unread: readonly EntryShown[];
}

export const newsOf = (keeper: Keeper): readonly DiaryNews[] => {
  const { diaries } = keeper.state;
  const reports = new Map(reportsOf(keeper.state).map((report) => [report.name, report]));
  return [...diaries.values()].flatMap(({ name, lastGood, nextPoll, calendarName, producer }) => {
    const report = reports.get(name);
    if (!report) return [];
    const choice = { state: "not-certain", diary: name, after: null, limit: ENTRIES_SHOWN } as const;
    const counts = countEntries(keeper, name);
    const unread = counts["not-certain"] > 0 ? listEntries(keeper, choice).entries : [];
    return { report, counts, unread, lastGood, nextPoll, calendarName, producer };
  });
};
