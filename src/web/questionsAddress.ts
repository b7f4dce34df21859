/** Where the questions for one appointment stand. Names it by its event, since an entry's own UID may hold a person's name. */
import type { FeedContext } from "../feed/types.ts";
import type { Plan } from "../plan/types.ts";

export const questionsAddress = ({ booking }: Plan, { pageUrl, uidOf }: FeedContext): string =>
  `${pageUrl ?? ""}/screening?appointment=${encodeURIComponent(uidOf(booking.uid, "colour", null))}`;
