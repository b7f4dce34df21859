/** The simulation's own reckoning of days, periods and local times, on TC39 Temporal's reference arithmetic. Seconds in UTC. */
import { Temporal } from "temporal-polyfill";

export type Seconds = number;
export const MINUTE = 60;
export const HOUR = 3_600;
export const DAY = 86_400;

export const iso = (at: Seconds): string => new Date(at * 1000).toISOString().replace(".000Z", "Z");
export const secondsOf = (text: string): Seconds => Date.parse(text) / 1000;

export class SalonCalendar {
  readonly zone: string;
  readonly #reckoned = new Map<string, Seconds>();

  constructor(zone: string) {
    this.zone = zone;
  }

  #at(at: Seconds): Temporal.ZonedDateTime {
    return Temporal.Instant.fromEpochMilliseconds(at * 1000).toZonedDateTimeISO(this.zone);
  }

  /** The local day of an instant. */
  dayOf(at: Seconds): Temporal.PlainDate {
    return this.#at(at).toPlainDate();
  }

  /** When a local day begins. */
  startOf(day: Temporal.PlainDate): Seconds {
    return Math.floor(day.toZonedDateTime(this.zone).epochMilliseconds / 1000);
  }

  /** A time of day, days from an instant's own local day. */
  at(from: Seconds, days: number, hour: number, minute = 0): Seconds {
    const time = Temporal.PlainTime.from({ hour, minute });
    return Math.floor(
      this.dayOf(from).add({ days }).toZonedDateTime({ timeZone: this.zone, plainTime: time }).epochMilliseconds / 1000,
    );
  }

  midnight(from: Seconds, days: number): Seconds {
    return this.#once(`${from} ${days}`, () => this.startOf(this.dayOf(from).add({ days })));
  }

  /** Kept through the local day that lies a period after another's; gone when the next begins. */
  endOf(last: Seconds, period: string): Seconds {
    return this.#once(`${last} ${period}`, () =>
      this.startOf(this.dayOf(last).add(Temporal.Duration.from(period)).add({ days: 1 })),
    );
  }

  #once(asked: string, reckon: () => Seconds): Seconds {
    const known = this.#reckoned.get(asked);
    if (known !== undefined) return known;
    const found = reckon();
    this.#reckoned.set(asked, found);
    return found;
  }

  weekday(at: Seconds): number {
    return this.dayOf(at).dayOfWeek;
  }

  /** `20270104T093000`. */
  wall(at: Seconds): string {
    return this.#at(at).toPlainDateTime().toString({ smallestUnit: "second" }).replaceAll(/[-:]/g, "");
  }

  /** `Wed 9 Dec 2026, 10:30 +00:00`. */
  words(at: Seconds): string {
    const local = this.#at(at);
    const names = local.toPlainDate().toLocaleString("en-GB", { weekday: "short" }).slice(0, 3);
    const month = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split(" ")[local.month - 1];
    const time = local.toPlainTime().toString({ smallestUnit: local.second === 0 ? "minute" : "second" });
    return `${names} ${local.day} ${month} ${local.year}, ${time} ${local.offset}`;
  }
}
