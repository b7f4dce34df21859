/** What settings that are nearly right are refused for. */
import { NO_HOLIDAYS } from "../../src/plan/holidays.ts";
import { compileRules } from "../../src/plan/rules.ts";
import type { Refusal } from "../../src/plan/types.ts";
import { settingsSchema } from "../../src/settings.ts";

/** Refusals of a salon's settings with some of them given otherwise; empty where they hold. */
export const refusalsOf = (given: Record<string, unknown>): readonly Refusal[] => {
  const walkIn = { route: "in-salon", protocol: "salon-48h" };
  const settings = settingsSchema.parse({ name: "A salon", zone: "Europe/London", tests: [walkIn], ...given });
  const compiled = compileRules(settings, NO_HOLIDAYS, "salon");
  return compiled.ok ? [] : compiled.refusals;
};
/** A salon's own protocol of 48 hours with some of it given otherwise. */
export const own = (protocol: Record<string, unknown>) => ({
  tests: [{ route: "in-salon", protocol: "own" }],
  protocols: { own: { lead: { least: "PT48H" }, readings: [{ after: "PT48H" }], ...protocol } },
});
