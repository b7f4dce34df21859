/** A new Thunderbird profile that asks nothing, tells nobody anything, and is subscribed to calendars. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";

export interface Subscription {
  /** Thunderbird's own name of the calendar in its registry: a UUID. */
  readonly id: string;
  readonly name: string;
  readonly address: string;
  readonly colour: string;
}

type Preference = string | number | boolean;

/** First-run pages, questions at the start, updates, and everything that would ask a server elsewhere. */
const QUIET: Readonly<Record<string, Preference>> = {
  "app.donation.eoy.version.viewed": 999,
  "app.normandy.enabled": false,
  "app.update.auto": false,
  "app.update.enabled": false,
  "browser.region.network.url": "",
  "browser.safebrowsing.downloads.enabled": false,
  "browser.search.update": false,
  "browser.shell.checkDefaultBrowser": false,
  "calendar.caldav.googleResync": 1,
  "datareporting.healthreport.uploadEnabled": false,
  "datareporting.policy.dataSubmissionPolicyBypassNotification": true,
  "extensions.getAddons.cache.enabled": false,
  "extensions.update.enabled": false,
  "intl.regional_prefs.use_os_locales": false,
  "mail.accounthub.enabled": false,
  "mail.inappnotifications.enabled": false,
  "mail.provider.suppress_dialog_on_startup": true,
  "mail.rights.version": 1,
  "mail.shell.checkDefaultClient": false,
  "mail.spotlight.firstRunDone": true,
  "mail.winsearch.firstRunDone": true,
  "mailnews.start_page.enabled": false,
  "mailnews.start_page_override.mstone": "ignore",
  "media.gmp-manager.updateEnabled": false,
  "network.captive-portal-service.enabled": false,
  "network.connectivity-service.enabled": false,
  "network.dns.disablePrefetch": true,
  "services.settings.server": "data:,#remote-settings-dummy/v1",
  "toolkit.telemetry.enabled": false,
  "toolkit.telemetry.unified": false,
};

const preferencesOf = ({ id, name, address, colour }: Subscription): Readonly<Record<string, Preference>> => {
  const registry = `calendar.registry.${id}`;
  return {
    [`${registry}.type`]: "ics",
    [`${registry}.uri`]: address,
    [`${registry}.name`]: name,
    [`${registry}.color`]: colour,
    [`${registry}.readOnly`]: true,
    [`${registry}.calendar-main-in-composite`]: true,
    // Offline support, the default of the subscribe dialog: what was read is kept in calendar-data/cache.sqlite.
    [`${registry}.cache.enabled`]: true,
    // Minutes, the shortest there is.
    [`${registry}.refreshInterval`]: 1,
  };
};

export const writeProfile = (folder: string, zone: string, subscriptions: readonly Subscription[]): void => {
  const preferences: Readonly<Record<string, Preference>> = {
    ...QUIET,
    "calendar.list.sortOrder": subscriptions.map(({ id }) => id).join(" "),
    "calendar.timezone.local": zone,
    "calendar.timezone.useSystemTimezone": false,
    "calendar.week.start": 1,
    // 0: the system chooses a free port, and Thunderbird writes it into the profile.
    "marionette.port": 0,
    ...Object.assign({}, ...subscriptions.map(preferencesOf)),
  };
  const lines = Object.entries(preferences).map(
    ([name, value]) => `user_pref(${JSON.stringify(name)}, ${JSON.stringify(value)});\n`,
  );
  writeFileSync(join(folder, "user.js"), lines.join(""));
};
