/** Where the salon's one alarm stands: at the earliest boundary, pull or midnight. Sets nothing. */
import type { Instant } from "../time/instant.ts";
import type { Keeper } from "./keeper.ts";
import { jitterOf } from "./schedule.ts";
import { nextBoundary } from "./settle.ts";

/** Seconds after midnight over which salons spread the reading that moves their horizon. */
const MIDNIGHT_SPREAD_SECONDS = 600;

/** Null where time alone will change nothing. */
export const nextAlarm = ({ state, desk, settings }: Keeper): Instant | null => {
  const { zone, namespace } = desk.rules;
  const pulled = new Set(settings.diaries.filter(({ url }) => url).map(({ name }) => name));
  const spread = Math.floor(jitterOf(namespace) * MIDNIGHT_SPREAD_SECONDS);
  const moments = [nextBoundary(state, desk)];
  for (const { name, nextPoll, horizonDay } of state.diaries.values()) {
    if (pulled.has(name)) moments.push(nextPoll);
    if (horizonDay !== null) moments.push(zone.startOfDay(horizonDay + 1) + spread);
  }
  const due = moments.filter((moment) => moment !== null);
  return due.length === 0 ? null : Math.max(Math.min(...due), state.settledTo + 1);
};
