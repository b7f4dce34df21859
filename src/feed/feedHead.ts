/** The head of a feed: its name, what it is about, how often to look again. */
import { fill } from "./fill.ts";
import { catalogueOf } from "./language/catalogueOf.ts";
import type { FeedContext, FeedHead } from "./types.ts";

/** Minutes that a feed asks its readers to wait between two looks: a salon's diary is read every quarter of an hour. */
const REFRESH_MINUTES = 60;

/**
 * The calendar has no UID of its own, though RFC 7986 §5.3 has one: a subscriber that takes the first UID of a text for an
 * entry's (vdirsyncer 0.19) would keep one event of them all.
 */
export const feedHead = (reader: "client" | "salon", { settings, pageUrl, wording }: FeedContext): FeedHead => {
  const { feed, discreet } = catalogueOf(settings.language);
  const hers = wording === "discreet" ? discreet.name : feed.clientName;
  const [name, about] = reader === "client" ? [hers, feed.clientAbout] : [feed.salonName, feed.salonAbout];
  const names = { salon: settings.name };
  return {
    name: fill(name, names),
    description: fill(about, names),
    url: pageUrl,
    language: settings.language,
    refreshMinutes: REFRESH_MINUTES,
  };
};
