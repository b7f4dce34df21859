/** Settings of an invented salon, thrown by the dice: most of what changes plans, words or the head of a feed. */
import type { Dice } from "../fuzz/Dice.ts";

const HOURS = ["08:00-18:00", "09:00-17:30", "10:00-20:00"];

/** @param number written into the name: no other settings of this salon have it */
export const settingsOf = (dice: Dice, number: number): Readonly<Record<string, unknown>> => {
  const day = (): string[] => [dice.of(HOURS)];
  const walkIn = { route: "in-salon", protocol: "salon-48h" };
  const kit = { route: "home-kit", protocol: "home-kit-120h" };
  return {
    name: `Quillfen Colour Room ${number}`,
    zone: "Europe/London",
    country: "GB",
    language: dice.of(["en-GB", "en-US"]),
    contact: { phone: `01632 960${String(dice.below(1_000)).padStart(3, "0")}` },
    tests: dice.of([[walkIn], [kit, walkIn], [walkIn, kit]]),
    opening: { tue: day(), wed: day(), thu: day(), fri: day(), sat: day() },
    clientHours: dice.of(["08:00-21:00", "07:00-20:00"]),
    show: { clients: dice.of(["initials", "names"]), words: dice.of(["plain", "discreet"]) },
  };
};
