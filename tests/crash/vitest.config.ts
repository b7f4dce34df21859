import { defineConfig } from "vitest/config";

/** Kills the whole service over and over: a minute for twenty kills on two slow cores. */
export default defineConfig({
  root: new URL("../..", import.meta.url).pathname,
  test: { name: "crash", include: ["tests/crash/**/*.test.ts"], testTimeout: 600_000 },
});
