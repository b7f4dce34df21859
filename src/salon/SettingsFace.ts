/** What may be asked of a salon as a whole: its making and its end, its settings, its key, its feed's link. */
import { type Settings, settingsSchema } from "../settings.ts";
import { changeSettings, type HeldSettings, replaceSettings } from "./changeSettings.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import { maskSettings } from "./maskAddress.ts";
import { previewSettings, type SettingsPreview } from "./previewSettings.ts";
import { repeatReading } from "./readings.ts";
import { SalonBase, secondsNow } from "./SalonBase.ts";

const yearNow = (): number => new Date().getUTCFullYear();

export interface SettingsShown {
  readonly version: number;
  readonly settings: Settings;
  readonly feedGeneration: number;
}

export abstract class SettingsFace extends SalonBase {
  /**
   * Makes this object a salon; `feedGeneration` is that of its first feed link.
   * @param print of the request that may be sent again, and is then answered as the first time; null: it may not
   */
  async create(
    id: string,
    origin: string,
    settings: Settings,
    keyHash: string,
    print: string | null,
  ): Promise<Outcome<{ feedGeneration: number }>> {
    if (this.keeper.exists) return this.keeper.madeBefore(keyHash, print, secondsNow());
    const made = await this.keeper.compile(settings, yearNow());
    if (!made.ok) return fail({ code: "settings-refused", refusals: made.refusals });
    const at = secondsNow();
    this.keeper.create({ id, origin, settings, keyHash, print }, at);
    await this.wake();
    return succeed({ feedGeneration: 1 });
  }

  /** Whether a key, hashed, opens this salon. */
  holdsKey(hash: string): boolean {
    return this.keeper.exists && this.keeper.store.hasKey(hash);
  }

  /**
   * The settings as they leave the salon: no diary's address shows its user and password.
   * @param version which of them, since records name the one they were told under; null: those that hold
   */
  async settings(version: number | null): Promise<Outcome<SettingsShown>> {
    await this.wake();
    const { keeper } = this;
    const stored = version === null || version === keeper.version ? undefined : keeper.store.settingsOf(version);
    if (version !== null && version !== keeper.version && stored === undefined)
      return fail({ code: "no-such-settings", newest: keeper.version });
    const settings = stored === undefined ? keeper.settings : settingsSchema.parse(JSON.parse(stored));
    return succeed({
      version: version ?? keeper.version,
      settings: maskSettings(settings),
      feedGeneration: Number(keeper.store.meta("feed-generation")),
    });
  }

  /**
   * A diary's address that comes as it was shown stands for the one that is stored.
   * @param ifVersions those the caller has seen, or null where it does not say
   */
  async putSettings(given: Settings, ifVersions: readonly number[] | null): Promise<Outcome<HeldSettings>> {
    const keeper = this.keeper;
    const held = await changeSettings(keeper, this.wake, () => replaceSettings(keeper, given, ifVersions));
    if (!held.ok) return held;
    const now = await this.wake();
    for (const name of keeper.state.diaries.keys()) repeatReading(keeper, name, now);
    await this.setAlarm();
    return succeed({ version: held.value.version, settings: maskSettings(held.value.settings) });
  }

  /**
   * Erases the salon and all that it keeps, its clients' records among it; nothing of it can be had again.
   * @param ifVersions of the settings, as in `putSettings`
   */
  async eraseSalon(ifVersions: readonly number[] | null): Promise<Outcome<null>> {
    await this.wake();
    if (ifVersions !== null && !ifVersions.includes(this.keeper.version))
      return fail({ code: "settings-changed-meanwhile" });
    await this.ctx.storage.deleteAlarm();
    await this.ctx.storage.deleteAll();
    this.keeper.forget();
    return succeed(null);
  }

  /**
   * What these settings would change; changes nothing.
   * @param ifVersions as in `putSettings`
   */
  async previewSettings(settings: Settings, ifVersions: readonly number[] | null): Promise<Outcome<SettingsPreview>> {
    const now = await this.wake();
    const meant = replaceSettings(this.keeper, settings, ifVersions);
    if (!meant.ok) return meant;
    const made = await this.keeper.compile(meant.value, yearNow());
    if (!made.ok) return fail({ code: "settings-refused", refusals: made.refusals });
    return succeed(previewSettings(this.keeper, meant.value, made.desk, now));
  }

  /** Another key in place of the one before, which opens nothing from here on. */
  renewKey(hash: string): void {
    this.keeper.renewKey(hash, secondsNow());
  }

  /** Another link for the salon's feed; those before it are revoked. */
  renewFeed(): { readonly feedGeneration: number } {
    return { feedGeneration: this.keeper.renewFeed() };
  }
}
