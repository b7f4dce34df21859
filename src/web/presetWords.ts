/** The tests that the front door offers, in plain words, by their presets' names. */
import { PRESETS } from "../plan/protocols.ts";

const WORDS: Readonly<Record<string, string>> = {
  "home-kit-120h": "At home, with a kit sent by post: on 120 hours before the colour",
  "salon-48h": "At the salon: on 48 hours before the colour",
  "salon-45min-48h": "At the salon: wiped off after 45 minutes, 48 hours before the colour",
  "two-looks-48h": "At the salon: on 48 hours before, a first look after 30 minutes",
  "wash-off-24h": "At the salon: on 24 hours before the colour, then washed off",
  "window-24-48h": "At the salon: on between 48 and 24 hours before the colour",
};

/** In the order in which they are offered; null: a kit, or else a test at the salon. */
export const TESTS_OFFERED: readonly { readonly name: string; readonly words: string }[] = [
  { name: "", words: "Whichever still fits: a kit sent home, or else a test at the salon" },
  ...Object.keys(WORDS).map((name) => ({ name, words: WORDS[name] ?? name })),
];

export const isPreset = (name: string): boolean => Object.hasOwn(PRESETS, name);
