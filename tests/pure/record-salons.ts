/** A few salons for property tests of records, each with what the judge is told of it. Nothing here expects a result. */
import * as fc from "fast-check";
import { NO_HOLIDAYS } from "../../src/plan/holidays.ts";
import { compileRules } from "../../src/plan/rules.ts";
import { settingsSchema } from "../../src/settings.ts";
import type { JudgedSalon, JudgedTest } from "./record-judged.ts";

const weekdays = Object.fromEntries(["mon", "tue", "wed", "thu", "fri", "sat"].map((day) => [day, ["09:00-17:30"]]));
const ANY = { months: null, product: "any", shade: "any" } as const;
const KIT: JudgedTest = {
  route: "home-kit",
  least: 120,
  most: null,
  from: "application",
  wear: 48,
  looks: [48.5, 96],
  onFile: ANY,
};
const WALK_IN: JudgedTest = {
  route: "in-salon",
  least: 48,
  most: null,
  from: "application",
  wear: null,
  looks: [48],
  onFile: null,
};
const ownProtocol = {
  lead: { least: "PT24H", most: "PT96H", from: "removal" },
  wear: "PT6H",
  readings: [{ after: "PT3H" }, { after: "PT7H" }, { after: "PT30H" }, { after: "PT40H" }],
  source: { note: "made up for a test" },
};

const scene = (settings: Record<string, unknown>, judged: Partial<JudgedSalon> & Pick<JudgedSalon, "tests">) => {
  const zone = judged.zone ?? "Europe/London";
  const given = settingsSchema.parse({ name: "Salon of a test", zone, opening: weekdays, ...settings });
  const compiled = compileRules(given, NO_HOLIDAYS, "salon-of-a-test");
  if (!compiled.ok) throw new Error(compiled.refusals[0]?.text);
  // A counter-example shows which salon it is; what is compiled from its settings would bury it.
  const rules = Object.assign(compiled.rules, { [fc.toStringMethod]: () => "(compiled)" });
  return { rules, judged: { zone, product: null, shade: null, ...judged } };
};

/** Salons, each with what the judge is told of it. */
export const SALONS = [
  scene(
    {
      tests: [KIT, WALK_IN].map(({ route }) => ({
        route,
        protocol: route === "home-kit" ? "home-kit-120h" : "salon-48h",
      })),
    },
    { tests: [KIT, WALK_IN] },
  ),
  scene(
    {
      zone: "America/Santiago",
      opening: null,
      services: [{ name: "Colour", words: ["tint"], product: "line A", shade: 6 }],
      tests: [
        {
          route: "in-salon",
          protocol: ["salon-48h", "two-looks-48h"],
          onFile: { months: 6, product: "same", shade: "not-darker" },
        },
      ],
    },
    {
      zone: "America/Santiago",
      product: "line A",
      shade: 6,
      tests: [{ ...WALK_IN, looks: [0.5, 48], onFile: { months: 6, product: "same", shade: "not-darker" } }],
    },
  ),
  scene(
    {
      tests: [
        { route: "in-salon", protocol: "salon-45min-48h", onFile: ANY },
        { route: "home-kit", protocol: "home-kit-120h", onFile: null },
      ],
    },
    {
      tests: [
        { ...WALK_IN, from: "removal", wear: 0.75, looks: [48.75], onFile: ANY },
        { ...KIT, onFile: null },
      ],
    },
  ),
  scene(
    {
      tests: [
        { route: "in-salon", protocol: "window-24-48h" },
        { route: "home-kit", protocol: "wash-off-24h", onFile: { months: 1 } },
      ],
    },
    {
      tests: [
        { ...WALK_IN, least: 24, most: 48, looks: [24] },
        { ...KIT, least: 24, wear: 24, looks: [24], onFile: { ...ANY, months: 1 } },
      ],
    },
  ),
  scene(
    {
      opening: null,
      protocols: { own: ownProtocol },
      tests: [{ route: "in-salon", protocol: "own", onFile: { months: 2 } }],
    },
    {
      tests: [
        {
          ...WALK_IN,
          least: 24,
          most: 96,
          from: "removal",
          wear: 6,
          looks: [3, 7, 30, 40],
          onFile: { ...ANY, months: 2 },
        },
      ],
    },
  ),
] as const;
