/**
 * Changes a salon's settings without losing what someone else changed meanwhile: what is to hold is made from a version,
 * and written only if that version still holds. The rules of a salon take time to make, since holidays may be loaded.
 */
import { DIARIES_MAX } from "../bounds.ts";
import { type Settings, settingsSchema } from "../settings.ts";
import type { Instant } from "../time/instant.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";
import { unmaskSettings } from "./maskAddress.ts";

export interface HeldSettings {
  readonly version: number;
  readonly settings: Settings;
}

/**
 * @param next the settings wanted, made from those that hold when it is asked; asked again where they changed meanwhile
 * @param wake settles the salon and gives the present instant
 */
export const changeSettings = async (
  keeper: Keeper,
  wake: () => Promise<Instant>,
  next: () => Outcome<Settings>,
): Promise<Outcome<HeldSettings>> => {
  for (;;) {
    const began = await wake();
    const { version } = keeper;
    const wanted = next();
    if (!wanted.ok) return wanted;
    const settings = wanted.value;
    if (JSON.stringify(settings) === JSON.stringify(keeper.settings)) return succeed({ version, settings });
    const made = await keeper.compile(settings, new Date(began * 1000).getUTCFullYear());
    const now = await wake();
    // Nothing is awaited from here to the write.
    if (keeper.version !== version) continue;
    if (!made.ok) return fail({ code: "settings-refused", refusals: made.refusals });
    keeper.adopt(settings, made.desk, now);
    return succeed({ version: version + 1, settings });
  }
};

/**
 * New settings as they will hold. Those that do not name a pushed diary do not take its bookings away: it came by a push,
 * and goes by a call of its own.
 * @param ifVersions those the caller has seen, or null where it does not say
 */
export const replaceSettings = (
  keeper: Keeper,
  given: Settings,
  ifVersions: readonly number[] | null,
): Outcome<Settings> => {
  if (ifVersions !== null && !ifVersions.includes(keeper.version)) return fail({ code: "settings-changed-meanwhile" });
  const meant = unmaskSettings(given, keeper.settings);
  const named = new Set(meant.diaries.map(({ name }) => name));
  const kept = keeper.settings.diaries.filter(
    ({ name, url }) => !url && !named.has(name) && keeper.state.diaries.get(name)?.lastGood,
  );
  const diaries = [...meant.diaries, ...kept];
  return diaries.length > DIARIES_MAX ? fail({ code: "diary-not-added" }) : succeed({ ...meant, diaries });
};

/** The present settings with one more pushed diary, where they have room and it a name they can keep. */
export const addDiary = ({ settings }: Keeper, name: string): Outcome<Settings> => {
  if (settings.diaries.some((diary) => diary.name === name)) return succeed(settings);
  const parsed = settingsSchema.safeParse({ ...settings, diaries: [...settings.diaries, { name }] });
  const isKept = parsed.success && parsed.data.diaries.at(-1)?.name === name;
  return isKept ? succeed(parsed.data) : fail({ code: "diary-not-added" });
};

/** The present settings without one diary. A salon always keeps one: without any other, an empty pushed one. */
export const removeDiary = ({ settings }: Keeper, name: string): Outcome<Settings> => {
  const left = settings.diaries.filter((diary) => diary.name !== name);
  if (left.length === settings.diaries.length) {
    return fail({ code: "no-such-diary", known: settings.diaries.map((diary) => diary.name) });
  }
  return succeed(settingsSchema.parse({ ...settings, diaries: left.length > 0 ? left : undefined }));
};
