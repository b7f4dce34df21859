import { defineConfig } from "vitest/config";

/** What needs a real start of the service or a real browser; one file at a time, since each starts a service. */
export default defineConfig({
  root: new URL("../..", import.meta.url).pathname,
  test: {
    name: "browser",
    include: ["tests/browser/**/*.test.ts", "tests/faults/**/*.test.ts"],
    fileParallelism: false,
    testTimeout: 180_000,
    hookTimeout: 180_000,
  },
});
