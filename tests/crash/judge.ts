/** Judges one salon after a restart, by the service's own calls and the harness's log alone. */
import { bookingKey, type Bookings } from "./Appointments.ts";
import { type Caller, jsonOf } from "./Caller.ts";
import { judgeFeeds } from "./judgeFeeds.ts";
import { everyPage, judgeTold } from "./judgeTold.ts";
import { versionOf } from "./load.ts";
import type { Tally } from "./Tally.ts";
import { type PlanSeen, sure, type WatchedSalon } from "./WatchedSalon.ts";

type Settings = Readonly<Record<string, unknown>> & { readonly diaries: readonly { readonly name: string }[] };

export const judge = async (salon: WatchedSalon, caller: Caller, tally: Tally): Promise<void> => {
  tally.add("judgements");
  const settings = await judgeSettings(salon, caller, tally);
  await judgeDiaries(salon, caller, tally, settings);
  await judgeTold(salon, caller, tally);
  await judgeFeeds(salon, caller, tally, String(settings["name"]));
};

/** An acknowledged PUT holds, whole; no version falls or stands for two settings. */
const judgeSettings = async (salon: WatchedSalon, caller: Caller, tally: Tally): Promise<Settings> => {
  const answer = sure(await salon.ask(caller, "GET", "/api/salon"), 200);
  const settings = jsonOf(answer) as Settings;
  const looked = salon.settings.find(({ value }) => value["name"] === settings["name"]);
  if (!looked) tally.fault("the settings are none of those that may hold");
  for (const cut of looked?.cut ?? []) tally.add(cut === looked?.found ? "cutSettingsKept" : "cutSettingsNotKept");
  if (looked && !isWithin(looked.found.value, settings)) tally.fault("the settings hold in part");
  const version = versionOf(answer) ?? 0;
  const highest = Math.max(...salon.versions.keys(), 0);
  if (version < highest) tally.fault(`the settings' version fell from ${highest} to ${version}`);
  const before = salon.versions.get(version);
  if (before !== undefined && before !== settings["name"]) tally.fault(`version ${version} is of two settings`);
  salon.versions.set(version, String(settings["name"]));
  return settings;
};

/** Whether all that was sent stands in what is held; what was not sent has its default there. */
const isWithin = (sent: unknown, held: unknown): boolean => {
  if (typeof sent !== "object" || sent === null) return sent === held;
  if (typeof held !== "object" || held === null) return false;
  // Pushed diaries come and go by calls of their own.
  return Object.entries(sent).every(
    ([name, value]) => name === "diaries" || isWithin(value, (held as Readonly<Record<string, unknown>>)[name]),
  );
};

/** An acknowledged push is applied; one that was cut off, as a whole or not at all. */
const judgeDiaries = async (salon: WatchedSalon, caller: Caller, tally: Tally, settings: Settings): Promise<void> => {
  const plans = await everyPage<PlanSeen>(salon, caller, "/api/salon/plans", "plans");
  tally.add("plans", plans.length);
  const held = new Map<string, string[]>(salon.diaries.map(({ name }) => [name, []]));
  for (const { booking, standing } of plans) {
    const { id, name } = booking.client;
    if ((salon.clientIds.get(name) ?? id) !== id) tally.fault("a client has another id than before");
    salon.clientIds.set(name, id);
    if (standing !== "cancelled") held.get(booking.diary)?.push(bookingKey(name, booking.start, booking.summary));
  }
  if (new Set(salon.clientIds.values()).size !== salon.clientIds.size) tally.fault("two clients have one id");
  for (const diary of salon.diaries) {
    const bookings = (held.get(diary.name) ?? []).toSorted();
    const isKnown = settings.diaries.some(({ name }) => name === diary.name);
    const looked = diary.held.find(({ value }) => isSame(value ?? [], bookings) && (isKnown || value === null));
    if (!looked) tally.fault(`${diary.name}: ${bookings.length} bookings are none of the diaries that may be applied`);
    for (const cut of looked?.cut ?? []) tally.add(cut === looked?.found ? "cutPushesApplied" : "cutPushesNotApplied");
  }
  salon.bookings = plans.filter(({ standing }) => standing !== "cancelled").map(({ booking }) => booking);
};

const isSame = (one: Bookings, other: Bookings): boolean =>
  one.length === other.length && one.every((key, place) => key === other[place]);
