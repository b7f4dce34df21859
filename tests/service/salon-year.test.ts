/**
 * A simulated year of a busy salon, told apart by a second bookkeeping (tests/salon-year) that imports nothing of src/: evidence,
 * erasure, retention, who is who and restarts. Its rules are the outward contract's; periods are reckoned on TC39 Temporal.
 * `npm run salon-year` runs 52 weeks of 40 colours; here runs a share. SALON_WEEKS, SALON_SEED and SALON_COLOURS choose.
 */
import { env } from "cloudflare:workers";
import { afterEach, expect, test, vi } from "vitest";
import { endYear, runYear } from "../salon-year/year.ts";

afterEach(async () => {
  vi.useRealTimers();
  await endYear();
});

const chosen = (env as unknown as { readonly SALON_YEAR?: Readonly<Record<string, string>> }).SALON_YEAR ?? {};
const weeks = Number(chosen["weeks"] || 8);
const seed = Number(chosen["seed"] || 20_270_104);
const colours = Number(chosen["colours"] || (chosen["weeks"] ? 40 : 14));
/** So short that ends fall inside what runs, and no shorter than a diary reaches back. */
const SHORT = weeks < 30 ? { evidence: "P6W", rest: "P5W" } : { evidence: "P6M", rest: "P2M" };

test.each([
  ["Europe/London", { evidence: "P6Y", rest: "P2Y" }],
  ["America/New_York", SHORT],
] as const)("a salon in %s keeps and lets go by its log: %j", async (zone, retention) => {
  const began = performance.now();
  const { faults, counts } = await runYear({ seed, weeks, zone, retention, colours });
  console.log(
    JSON.stringify({
      zone,
      retention,
      weeks,
      seed,
      seconds: Math.round((performance.now() - began) / 1000),
      ...counts,
    }),
  );
  expect(faults).toEqual([]);
  for (const what of ["bookings", "records", "screenings", "evidence pages compared", "rows searched"])
    expect(counts[what]).toBeGreaterThan(0);
});
