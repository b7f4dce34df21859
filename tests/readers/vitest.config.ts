import { defineConfig } from "vitest/config";

/** The feeds as programs of others read them: needs Debian's packages; each reader is a process under a host zone of its own. */
export default defineConfig({
  root: new URL("../..", import.meta.url).pathname,
  test: {
    name: "readers",
    include: ["tests/readers/**/*.test.{ts,tsx}"],
    pool: "forks",
    testTimeout: 400_000,
    hookTimeout: 400_000,
  },
});
