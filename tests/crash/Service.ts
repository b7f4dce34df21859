/**
 * The whole service in a workerd of its own, its storage on disk, to be killed at any moment. The Worker is bundled once, as
 * `wrangler deploy` bundles it, and workerd is started on the bundle directly: 0.15 s a start, where wrangler dev takes 4 s.
 */
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Caller } from "./Caller.ts";

/** The one that wrangler brings: the same that `npm start` runs. */
const workerd = (createRequire(createRequire(import.meta.url).resolve("wrangler"))("workerd") as { default: string })
  .default;
const PROJECT = new URL("../..", import.meta.url).pathname;
export const OPERATOR = "operator-key-of-the-crashes";
const SECRETS = { OPERATOR_KEY: OPERATOR, LINK_SECRET: "link-secret-of-the-crashes-0123456789" };
const START_TIMEOUT_MS = 30_000;
const ASK_EVERY_MS = 10;

/** The same date, class and storage as wrangler.toml gives them. */
const configOf = (port: number): string => `
using Workerd = import "/workerd/workerd.capnp";
const config :Workerd.Config = (
  services = [
    (name = "main", worker = .worker),
    (name = "storage", disk = (path = "storage", writable = true)),
    (name = "internet", network = (allow = [])),
  ],
  sockets = [(name = "http", address = "127.0.0.1:${port}", http = (), service = "main")],
);
const worker :Workerd.Worker = (
  modules = [(name = "index.js", esModule = embed "bundle/index.js")],
  compatibilityDate = "2026-11-01",
  bindings = [
    (name = "OPERATOR_KEY", fromEnvironment = "OPERATOR_KEY"),
    (name = "LINK_SECRET", fromEnvironment = "LINK_SECRET"),
    (name = "SALON", durableObjectNamespace = "Salon"),
  ],
  durableObjectNamespaces = [(className = "Salon", uniqueKey = "countback-salon", enableSql = true)],
  durableObjectStorage = (localDisk = "storage"),
);
`;

const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const server = createServer();
    server.once("error", reject);
    server.listen(0, "127.0.0.1", () => {
      const { port } = server.address() as { port: number };
      server.close(() => resolve(port));
    });
  });

const bundle = (folder: string): void => {
  const wrangler = join(PROJECT, "node_modules", "wrangler", "bin", "wrangler.js");
  const { status, stderr } = spawnSync(process.execPath, [wrangler, "deploy", "--dry-run", "--outdir", folder], {
    cwd: PROJECT,
    env: { ...process.env, WRANGLER_SEND_METRICS: "false", WRANGLER_WRITE_LOGS: "false", CI: "1" },
    encoding: "utf8",
  });
  if (status !== 0) throw new Error(`the Worker could not be bundled:\n${stderr}`);
};

export class Service {
  readonly #folder: string;
  readonly caller: Caller;
  #child: ChildProcess | undefined;
  #printed = "";

  private constructor(folder: string, port: number) {
    this.#folder = folder;
    this.caller = new Caller(port);
    // Whatever ends this process, the service does not outlive it.
    process.once("exit", () => this.#leave());
    for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.once(signal, () => process.exit(1));
  }

  /** Bundles the Worker into a folder of its own; nothing runs yet. */
  static async prepare(): Promise<Service> {
    const folder = mkdtempSync(join(tmpdir(), "countback-crash-"));
    const port = await freePort();
    bundle(join(folder, "bundle"));
    mkdirSync(join(folder, "storage"));
    writeFileSync(join(folder, "config.capnp"), configOf(port));
    return new Service(folder, port);
  }

  /** All that the service wrote on its error output: a fault of its own stands there with its stack. */
  get printed(): string {
    return this.#printed;
  }

  /** Where its storage lies on disk. */
  get storage(): string {
    return join(this.#folder, "storage");
  }

  /** Starts the process and does not wait for it to answer. */
  spawn(): void {
    const child = spawn(workerd, ["serve", "config.capnp", "--experimental"], {
      cwd: this.#folder,
      env: SECRETS,
      // A group of its own, so that nothing of it is left by a kill.
      detached: true,
      stdio: ["ignore", "ignore", "pipe"],
    });
    child.stderr?.on("data", (chunk: Buffer) => (this.#printed += chunk.toString()));
    this.#child = child;
  }

  /** Starts it and waits for its first answer; the milliseconds that took. */
  async start(): Promise<number> {
    const began = performance.now();
    this.spawn();
    while (performance.now() - began < START_TIMEOUT_MS) {
      if (this.#child?.exitCode !== null) break;
      const answer = await this.caller.ask("GET", "/healthz");
      if (answer.kind === "answered" && answer.status === 200) return performance.now() - began;
      await new Promise((resolve) => setTimeout(resolve, ASK_EVERY_MS));
    }
    throw new Error(`workerd did not answer after a restart:\n${this.#printed.slice(-2_000)}`);
  }

  /** kill -9 of the whole group; resolves when the process is gone and its connections are dropped. */
  async kill(): Promise<void> {
    const child = this.#child;
    if (!child) return;
    this.#child = undefined;
    const isGone = new Promise<void>((resolve) => child.once("exit", () => resolve()));
    if (child.exitCode !== null) throw new Error(`workerd ended by itself:\n${this.#printed.slice(-2_000)}`);
    if (child.pid !== undefined) process.kill(-child.pid, "SIGKILL");
    await isGone;
    this.caller.drop();
  }

  async end(): Promise<void> {
    await this.kill();
    this.#leave();
  }

  #leave(): void {
    if (this.#child?.pid !== undefined && this.#child.exitCode === null) process.kill(-this.#child.pid, "SIGKILL");
    rmSync(this.#folder, { recursive: true, force: true });
  }
}
