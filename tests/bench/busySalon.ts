/**
 * One salon with every rule on, a year of its bookings and what is recorded of their clients: what plan-cost.ts measures.
 * Everything is derived from a number, so that two runs ask the same questions. Never asks a clock.
 */
import type { CountBackInput } from "../../src/plan/countBack.ts";
import type { HolidayTable } from "../../src/plan/holidays.ts";
import { compileRules, type Rules } from "../../src/plan/rules.ts";
import type { Fact } from "../../src/plan/types.ts";
import { type Settings, settingsSchema } from "../../src/settings.ts";
import { DAY_SECONDS, HOUR, type Instant, MINUTE } from "../../src/time/instant.ts";

export const ZONE = "Europe/London";
export const COUNTRY = { country: "GB", region: "ENG" } as const;
/** Bookings that a salon of three chairs has ahead and just behind. */
export const BOOKINGS = 300;
const YEAR_BEGINS: Instant = Date.UTC(2026, 8, 1) / 1000;

export const busySettings: Settings = settingsSchema.parse({
  name: "Quillfen Colour Room",
  zone: ZONE,
  country: COUNTRY.country,
  holidays: { country: COUNTRY.country, region: COUNTRY.region, add: ["2026-11-30", "2027-06-14"] },
  services: [{ name: "Colour", words: ["tint"], product: "line A", shade: 5 }],
  tests: [
    {
      route: "home-kit",
      protocol: ["home-kit-120h", "own-kit"],
      onFile: { months: 6, product: "same", shade: "not-darker" },
      screening: { margin: "PT24H" },
    },
    {
      route: "in-salon",
      protocol: ["salon-48h", "two-looks-48h", "own-window"],
      onFile: { months: 6, product: "same", shade: "any" },
    },
  ],
  protocols: {
    "own-kit": {
      lead: { least: "PT96H" },
      wear: "PT48H",
      removeWithin: "PT2H",
      readings: [{ after: "PT72H", within: "PT4H" }],
      source: { title: "The kit's leaflet", year: 2026 },
    },
    "own-window": { lead: { least: "PT48H", most: "PT672H" }, readings: [{ after: "PT24H" }] },
  },
  opening: {
    tue: ["09:00-13:00", "14:00-18:00"],
    wed: ["09:00-13:00", "14:00-18:00"],
    thu: ["10:00-14:00", "15:00-20:00"],
    fri: ["09:00-13:00", "13:45-18:30"],
    sat: ["08:30-12:30", "13:00-16:00"],
    holiday: ["10:00-12:00"],
  },
  lastWalkIn: "PT45M",
  closed: ["2026-12-24/2027-01-04", "2027-04-13/2027-04-17", "2027-08-03/2027-08-14"],
  clientHours: "08:00-21:00",
  post: {
    lastCollection: "16:30",
    deliveredBy: "17:00",
    transit: 2,
    count: "delivery",
    closed: ["2026-12-27/2026-12-29"],
  },
});

/** The salon's rules as they are compiled when it wakes. */
export const compileBusy = (holidays: HolidayTable): Rules => {
  const compiled = compileRules(busySettings, holidays, "f3b6c1de-90f4-5a0e-8f5c-5d8f0c7a1b22");
  if (!compiled.ok) throw new Error(compiled.refusals.map(({ text }) => text).join(" "));
  return compiled.rules;
};

/** How long before its colour a booking is looked at: from weeks ahead to the day after, so that all standings occur. */
const SEEN_BEFORE: readonly number[] = [60, 30, 14, 10, 8, 7, 6, 5, 4, 3, 2.2, 1.5, 0.5, -1].map(
  (days) => days * DAY_SECONDS,
);

let told = 0;
const fact = (booking: string, kind: Fact["kind"], at: Instant, more: Partial<Fact> = {}): Fact => ({
  id: `r${++told}`,
  client: "c1",
  booking,
  kind,
  at,
  recorded: at,
  outcome: null,
  route: null,
  by: null,
  via: "desk",
  product: null,
  shade: null,
  batch: null,
  site: null,
  photo: null,
  reason: null,
  note: null,
  corrects: null,
  ...more,
});

/** A whole kit test of a visit, from the questions to the confirmation: nine records. */
const kitVisit = (booking: string, start: Instant, made: Partial<Fact>): Fact[] => {
  const on = start - 130 * HOUR;
  return [
    fact(booking, "screened", on - 96 * HOUR, { outcome: "pass" }),
    fact(booking, "posted", on - 80 * HOUR),
    fact(booking, "arrived", on - 20 * HOUR),
    fact(booking, "applied", on, { route: "home-kit", ...made }),
    fact(booking, "removed", on + 48 * HOUR),
    fact(booking, "read", on + 49 * HOUR, { outcome: "clear" }),
    fact(booking, "read", on + 73 * HOUR, { outcome: "clear" }),
    fact(booking, "read", on + 96 * HOUR + 10 * MINUTE, { outcome: "clear" }),
    fact(booking, "confirmed", start - 10 * MINUTE),
  ];
};

/** `count` records of visits every seven weeks before `start`; every fourth client's last product makes them cover. */
const earlierVisits = (index: number, start: Instant, count: number): readonly Fact[] => {
  const made = index % 4 === 0 ? { product: "line A", shade: 4 } : { product: "line B", shade: 7 };
  const facts: Fact[] = [];
  for (let visit = 1; facts.length < count; visit++) {
    facts.push(...kitVisit(`b${index}-${visit}`, start - visit * 49 * DAY_SECONDS, made));
  }
  return facts.slice(0, count);
};

/** A year of bookings, each a question of its own; `earlier` is how many records of other bookings each client has. */
export const busyQuestions = (earlier: number, seenAt: Instant | null = null): readonly CountBackInput[] =>
  Array.from({ length: BOOKINGS }, (_, index) => {
    const day = YEAR_BEGINS + Math.floor((index * 365) / BOOKINGS) * DAY_SECONDS;
    const start = day + 9 * HOUR + ((index * 7) % 32) * 15 * MINUTE;
    const now = seenAt ?? start - (SEEN_BEFORE[index % SEEN_BEFORE.length] as number);
    const uid = `booking-${index}@quillfen.example`;
    const own = index % 3 === 0 ? kitVisit(uid, start, {}) : [];
    return {
      booking: {
        uid,
        start,
        end: start + 2 * HOUR,
        summary: "Root tint",
        service: "Colour",
        diary: "main",
        client: { id: "c1", name: "Mara Quillfeather" },
        cancelled: false,
      },
      facts: earlier === 0 ? [] : [...earlierVisits(index, start, earlier), ...own].filter(({ at }) => at <= now),
      samePerson: true,
      now,
    };
  });
