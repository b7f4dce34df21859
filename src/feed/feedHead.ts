/** The head of a feed: its name, what it is about, how often to look again. */
import { fill } from "./fill.ts";
import { catalogueOf } from "./language/catalogueOf.ts";
import type { FeedContext, FeedHead } from "./types.ts";

/** Minutes that a feed asks its readers to wait between two looks: a salon's diary is read every quarter of an hour. */
const REFRESH_MINUTES = 60;

/** @param uid of the calendar, the same as long as the feed is published */
export const feedHead = (reader: "client" | "salon", uid: string, { settings, pageUrl }: FeedContext): FeedHead => {
  const { feed } = catalogueOf(settings.language);
  const [name, about] = reader === "client" ? [feed.clientName, feed.clientAbout] : [feed.salonName, feed.salonAbout];
  const names = { salon: settings.name };
  return {
    uid,
    name: fill(name, names),
    description: fill(about, names),
    url: pageUrl,
    language: settings.language,
    refreshMinutes: REFRESH_MINUTES,
  };
};
