/** A moment as a client's pages write it: to the minute, since the second at which she pressed tells her nothing. */
import { longTime } from "../feed/timeInWords.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import type { FeedContext } from "../feed/types.ts";
import { type Instant, wholeMinute } from "../time/instant.ts";

export const minuteIn = (at: Instant, { zone, settings }: FeedContext): string =>
  longTime(wholeMinute(at), zone, catalogueOf(settings.language).time);
