/** Runs the service in local workerd through wrangler, with its storage on disk and no call to the outside. */
import { type ChildProcess, spawn } from "node:child_process";
import { writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { compactStorage } from "./compactStorage.ts";
import type { Secrets } from "./secrets.ts";

const wrangler = join(dirname(createRequire(import.meta.url).resolve("wrangler/package.json")), "bin", "wrangler.js");

/** Everything that wrangler would otherwise ask or tell the network, switched off. */
const QUIET = {
  WRANGLER_SEND_METRICS: "false",
  CLOUDFLARE_CF_FETCH_ENABLED: "false",
  WRANGLER_HIDE_BANNER: "true",
  WRANGLER_WRITE_LOGS: "false",
  X_LOCAL_EXPLORER: "false",
  X_LOCAL_OBSERVABILITY: "false",
  CI: "1",
};

export interface LocalService {
  readonly origin: string;
  /** Resolves with the exit code when the service has ended, by itself or by `stop`. */
  readonly ended: Promise<number>;
  stop(): Promise<void>;
}

/** How long the service may take to answer before the start is given up. */
const START_TIMEOUT_MS = 90_000;
const ASK_EVERY_MS = 150;

/** @param folder takes the storage and the secrets' file, so that they stand on no command line */
export const startWorkerd = async (port: number, folder: string, secrets: Secrets): Promise<LocalService> => {
  const origin = `http://localhost:${port}`;
  const secretsFile = join(folder, "secrets.env");
  writeFileSync(
    secretsFile,
    Object.entries(secrets)
      .map(([name, value]) => `${name}=${JSON.stringify(value)}\n`)
      .join(""),
    { mode: 0o600 },
  );
  compactStorage(join(folder, "storage"));
  const child = spawn(
    process.execPath,
    [
      wrangler,
      "dev",
      "--local",
      "--ip",
      "127.0.0.1",
      "--port",
      String(port),
      "--inspector-port",
      "0",
      "--persist-to",
      join(folder, "storage"),
      "--env-file",
      secretsFile,
      "--show-interactive-dev-session=false",
      "--log-level",
      "error",
      "--var",
      "ALLOW_LOCAL_DIARIES:true",
    ],
    { env: { ...process.env, ...QUIET }, stdio: ["ignore", "pipe", "pipe"] },
  );
  child.stdout.pipe(process.stdout);
  child.stderr.pipe(process.stderr);
  // Whatever ends this process, the service does not outlive it.
  process.once("exit", () => child.kill("SIGTERM"));
  const ended = new Promise<number>((resolve) => {
    child.once("exit", (code) => resolve(code ?? 0));
  });
  const stop = async (): Promise<void> => {
    child.kill("SIGTERM");
    await ended;
  };
  try {
    await untilAnswering(origin, child);
  } catch (error) {
    await stop();
    throw error;
  }
  return { origin, ended, stop };
};

const untilAnswering = async (origin: string, child: ChildProcess): Promise<void> => {
  const deadline = Date.now() + START_TIMEOUT_MS;
  while (Date.now() < deadline) {
    if (child.exitCode !== null) throw new Error("workerd ended before it answered; its own words stand above");
    const answer = await fetch(`${origin}/healthz`).catch(() => undefined);
    if (answer?.ok) return;
    await new Promise((resolve) => setTimeout(resolve, ASK_EVERY_MS));
  }
  throw new Error(`the service did not answer at ${origin} within ${START_TIMEOUT_MS / 1000} seconds`);
};
