/**
 * Law i of counting.md: the host's zone and the order of settings' keys change nothing. One process asks under several
 * host zones case by case; and since what it has once reckoned it may keep, processes that begin under another zone
 * answer a fixed row of questions too.
 */
import { execFile } from "node:child_process";
import { promisify } from "node:util";
import * as fc from "fast-check";
import { expect, test } from "vitest";
import type { Rules } from "../../src/plan/rules.ts";
import { type Settings, settingsSchema } from "../../src/settings.ts";
import { nowOf, planAt } from "./law-plans.ts";
import { checkLaw, lawTitle } from "./law-runs.ts";
import { compile, compileSettings, toldScenes } from "./plan-arbitraries.ts";
import { digestPlans, hostZone } from "./plan-digest.ts";

const HOST_ZONES = ["UTC", "Pacific/Auckland", "America/St_Johns", "Africa/Casablanca", "Asia/Tokyo"] as const;

/** Does a piece of work as if the host stood in another zone. */
const underHostZone = <T>(zone: string, work: () => T): T => {
  const own = process.env["TZ"];
  process.env["TZ"] = zone;
  try {
    if (hostZone() !== zone) throw new Error(`the host's zone stayed ${hostZone()}, not ${zone}`);
    return work();
  } finally {
    process.env["TZ"] = own;
  }
};

/** The same settings with every object's keys in reverse. */
const turned = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(turned);
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(
    Object.entries(value)
      .toReversed()
      .map(([key, each]) => [key, turned(each)]),
  );
};

test(lawTitle("i", "the host's zone, the order of settings' keys and that of the records change nothing"), () => {
  const cases = fc.record({ scene: toldScenes(), zone: fc.constantFrom(...HOST_ZONES) });
  checkLaw("i", cases, ({ scene, zone }) => {
    const { start, facts, appointments, input, daysOff } = scene;
    const now = nowOf(scene, scene);
    const plan = planAt(scene, start, now, scene);
    const backwards = { facts: facts.toReversed(), appointments: appointments.toReversed() };
    expect(planAt(scene, start, now, backwards)).toEqual(plan);
    // The door writes keys in an order of its own; what is turned after it reaches the rules.
    const settings = settingsSchema.parse(turned(input));
    for (const given of [settings, turned(settings) as Settings]) {
      const rules = compileSettings(given, daysOff.toReversed()) as Rules;
      expect(planAt({ rules }, start, now, scene)).toEqual(plan);
    }
    const elsewhere = underHostZone(zone, () =>
      planAt({ rules: compile({ input, daysOff }) as Rules }, start, now, scene),
    );
    expect(elsewhere, `under ${zone}`).toEqual(plan);
    return true;
  });
});

/** Plans that every host must answer alike; they are the same under each, and count towards no law. */
const SHARED_PLANS = 800;
let own: readonly string[] | undefined;

test.each(["UTC", "Pacific/Auckland", "America/St_Johns"])(
  `a process that begins under %s gives the same ${SHARED_PLANS} plans as this one`,
  async (zone) => {
    const program = `${import.meta.dirname}/plan-digest.ts`;
    const { stdout } = await promisify(execFile)(process.execPath, [program, String(SHARED_PLANS)], {
      env: { ...process.env, TZ: zone },
      maxBuffer: 64_000_000,
    });
    const [itsZone, ...lines] = stdout.split("\n");
    expect(itsZone).toBe(zone);
    expect(lines).toHaveLength(SHARED_PLANS);
    own ??= digestPlans(SHARED_PLANS);
    expect(lines).toEqual(own);
  },
);
