import { cloudflareTest } from "@cloudflare/vitest-plugin";
import { defineConfig } from "vitest/config";

/** A law tries hundreds of cases; it fails by a counter-example, never by a slow machine. */
const LAW_TIMEOUT_MS = 120_000;

/** How much of a salon's year is simulated: the tests' own runtime sees no environment. */
const salonYear = {
  weeks: process.env["SALON_WEEKS"] ?? "",
  seed: process.env["SALON_SEED"] ?? "",
  colours: process.env["SALON_COLOURS"] ?? "",
};

/** The pure parts run twice, under two host zones: what a host's zone can change is wrong. */
const pureUnder = (name: string, TZ: string) => ({
  test: {
    name,
    include: ["tests/pure/**/*.test.{ts,tsx}"],
    environment: "node" as const,
    pool: "forks" as const,
    env: { TZ },
    testTimeout: LAW_TIMEOUT_MS,
  },
});

export default defineConfig({
  root: new URL("..", import.meta.url).pathname,
  test: {
    // One core fewer is the default, and a machine of two would then use one.
    maxWorkers: 2,
    projects: [
      pureUnder("utc", "UTC"),
      pureUnder("auckland", "Pacific/Auckland"),
      {
        plugins: [
          cloudflareTest({
            wrangler: { configPath: "./wrangler.toml" },
            miniflare: {
              cf: false,
              bindings: {
                OPERATOR_KEY: "operator-key-of-the-tests",
                LINK_SECRET: "link-secret-of-the-tests-0123456789",
                SALON_YEAR: salonYear,
              },
            },
          }),
        ],
        test: { name: "workerd", include: ["tests/service/**/*.test.ts"], testTimeout: LAW_TIMEOUT_MS },
      },
    ],
  },
});
