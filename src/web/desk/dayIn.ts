/** A date as the desk's pages write it: `Wed 9 Dec 2026`. */
import { catalogueOf } from "../../feed/language/catalogueOf.ts";
import type { FeedContext } from "../../feed/types.ts";
import { type Day, partsOfDay, weekdayOf } from "../../time/instant.ts";

export const dayIn = (day: Day, { settings }: Pick<FeedContext, "settings">): string => {
  const { weekdays, months } = catalogueOf(settings.language).time;
  const { year, month, dayOfMonth } = partsOfDay(day);
  const [weekday, name] = [weekdays[weekdayOf(day) - 1] ?? "", months[month - 1] ?? ""];
  return settings.language === "en-US"
    ? `${weekday}, ${name} ${dayOfMonth}, ${year}`
    : `${weekday} ${dayOfMonth} ${name} ${year}`;
};
