/**
 * Bundles worker.ts as a deployment would be and runs it in one workerd, without wrangler's own proxy before it, which
 * would cost more than what is measured. Its storage is Miniflare's own folder, which goes when it ends.
 */
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Miniflare } from "miniflare";
import { dropFolder, newFolder } from "../../browser/localService.ts";

export const OPERATOR = "operator-of-a-bench";
export const LINK_SECRET = "link-secret-of-a-bench-0123456789";

export interface BenchWorker {
  /** Of workerd's own socket. */
  readonly origin: URL;
  /** CPU that the runtime has used, all its threads, in microseconds. */
  readonly cpu: () => number;
  readonly stop: () => Promise<void>;
}

/** The Worker's code as wrangler would deploy it. */
const bundle = (): string => {
  const folder = newFolder();
  const wrangler = join(import.meta.dirname, "../../../node_modules/wrangler/bin/wrangler.js");
  try {
    execFileSync(
      process.execPath,
      [wrangler, "deploy", join(import.meta.dirname, "worker.ts"), "--dry-run", "--outdir", folder],
      {
        env: {
          ...process.env,
          CI: "1",
          WRANGLER_SEND_METRICS: "false",
          WRANGLER_HIDE_BANNER: "true",
          WRANGLER_WRITE_LOGS: "false",
        },
        stdio: ["ignore", "ignore", "inherit"],
      },
    );
    return readFileSync(join(folder, "worker.js"), "utf8");
  } finally {
    dropFolder(folder);
  }
};

export const startWorker = async (): Promise<BenchWorker> => {
  const object = (exportName: string) => ({ type: "durable-object", worker: "bench", exportName }) as const;
  // Neither object is thrown out while the others have their turns.
  const kept = { type: "durable-object", storage: "sqlite", unsafePreventEviction: true } as const;
  const text = (value: string) => ({ type: "text", value }) as const;
  const runtime = new Miniflare({
    cf: false,
    workers: [
      {
        config: {
          name: "bench",
          compatibilityDate: "2026-11-01",
          compatibilityFlags: ["nodejs_compat"],
          manifest: {
            mainModule: "worker.js",
            modules: { "worker.js": { type: "esm", contents: bundle() } },
          },
          env: {
            OPERATOR_KEY: text(OPERATOR),
            LINK_SECRET: text(LINK_SECRET),
            SALON: object("Salon"),
            BARE: object("Bare"),
          },
          exports: { Salon: kept, Bare: kept },
        },
        dev: { unsafeDirectSockets: [{ host: "127.0.0.1" }] },
      },
    ],
  });
  const stop = (): Promise<void> => runtime.dispose();
  try {
    await runtime.ready;
    const process = runtimeProcess();
    return { origin: await runtime.unsafeGetDirectURL("bench"), cpu: () => cpuOfThreads(process), stop };
  } catch (error) {
    await stop();
    throw error;
  }
};

/** The workerd that is a child of this process. */
const runtimeProcess = (): string => {
  const ours = String(process.pid);
  const found = readdirSync("/proc").find((pid) => {
    try {
      if (!/^\d+$/.test(pid)) return false;
      const [name, rest] = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ");
      return rest?.split(" ")[1] === ours && name?.endsWith("(workerd");
    } catch {
      // It has ended meanwhile.
      return false;
    }
  });
  if (!found) throw new Error("no workerd was started by this process");
  return found;
};

const cpuOfThreads = (pid: string): number =>
  readdirSync(`/proc/${pid}/task`).reduce((sum, thread) => {
    try {
      return sum + Number(readFileSync(`/proc/${pid}/task/${thread}/schedstat`, "utf8").split(" ")[0]) / 1000;
    } catch {
      // A thread that has ended meanwhile.
      return sum;
    }
  }, 0);
