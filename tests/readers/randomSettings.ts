/** The settings of one random salon, as it would send them: through the door that every salon's settings go through. */
import { NOTE_MAX, TEXT_MAX } from "../../src/bounds.ts";
import { type Settings, settingsSchema } from "../../src/settings.ts";
import type { Dice } from "../fuzz/Dice.ts";
import { hostileWords } from "./hostileWords.ts";

/**
 * Northern and southern changes of the clocks, half an hour of one (Lord Howe), a negative summer (Dublin), none (Seoul,
 * Kolkata, Tokyo, Sao Paulo), half hours and three quarters, no yearly rule (Casablanca), a change at midnight (Cairo,
 * Santiago, Havana).
 */
const ZONES = [
  "Europe/Dublin",
  "Europe/London",
  "Europe/Berlin",
  "Europe/Lisbon",
  "America/New_York",
  "America/Los_Angeles",
  "America/Sao_Paulo",
  "America/St_Johns",
  "America/Santiago",
  "America/Havana",
  "Asia/Seoul",
  "Asia/Kolkata",
  "Asia/Kathmandu",
  "Asia/Tokyo",
  "Africa/Casablanca",
  "Africa/Cairo",
  "Australia/Sydney",
  "Australia/Lord_Howe",
  "Pacific/Auckland",
  "Pacific/Chatham",
] as const;

const AT_HOME = ["home-kit-120h"];
const IN_SALON = ["salon-48h", "salon-45min-48h", "wash-off-24h", "window-24-48h", "two-looks-48h"];

export const SERVICES = ["Permanent colour", "Root tint", "Toner"] as const;

/** Long enough words of any kind, cut to what the door lets in; never halves of a pair at the cut, which stand elsewhere. */
const words = (dice: Dice, plain: string, most: number): string =>
  dice.below(3) === 0 ? hostileWords(dice).slice(0, most).trim() || plain : plain;

/** @param number picks the zone, so that every zone has its salons */
export const randomSettings = (dice: Dice, number: number): Settings => {
  const homeKit = {
    route: "home-kit",
    protocol: dice.of(AT_HOME),
    kit: { name: words(dice, "Leaf kit", TEXT_MAX), instructions: words(dice, "Read the leaf first.", NOTE_MAX) },
  };
  const inSalon = { route: "in-salon", protocol: dice.of(IN_SALON) };
  const tests = dice.of([[homeKit, inSalon], [inSalon, homeKit], [homeKit], [inSalon]]);
  return settingsSchema.parse({
    name: words(dice, "Juniper Lane Colour Room", TEXT_MAX),
    zone: ZONES[number % ZONES.length],
    country: dice.of(["GB", "IE", "US", "DE", "AU", "NZ", null]),
    language: dice.of(["en-GB", "en-US"]),
    contact: {
      phone: words(dice, "020 7946 0000", TEXT_MAX),
      email: words(dice, "hello@juniper.example", TEXT_MAX),
      address: words(dice, "3 Juniper Lane", NOTE_MAX),
    },
    services: SERVICES.map((name, index) => ({
      name: dice.below(4) === 0 ? `${index} ${words(dice, name, TEXT_MAX - 4)}` : name,
      words: [name.toLowerCase()],
    })),
    diaries: [{ name: "main" }, { name: words(dice, "chair two", TEXT_MAX).replaceAll(/[/\\?#%\p{Cc}]/gu, "-") }],
    tests,
    // A country's holidays take longer to make than all the rest of a salon: one in five keeps them.
    holidays: number % 5 === 0 ? { country: dice.of(["IE", "GB"]) } : null,
    clientHours: dice.of(["08:00-21:00", "00:00-23:59", "06:30-23:00"]),
    show: { clients: dice.of(["initials", "names"]) },
  });
};
