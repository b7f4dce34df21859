/** What the words of a client's pages need beside her plans. */
import type { FeedContext } from "../feed/types.ts";
import { eventUid } from "../plan/uid.ts";
import type { Settings } from "../settings.ts";
import { Zone } from "../time/zone.ts";

/** @param page absolute address of her page */
export const clientContext = (salon: string, settings: Settings, page: string): FeedContext => ({
  settings,
  zone: Zone.named(settings.zone) as Zone,
  pageUrl: page,
  wording: "plain",
  uidOf: (booking, kind, n) => eventUid(salon, booking, kind, n),
});
