/**
 * Evolution's calendar service, which GNOME Calendar uses too, subscribed to one client's feed without any screen: what it
 * asks, what it keeps under clocks elsewhere, and whether it follows a change. `RECORD=file` keeps the requests. Takes
 * about half a minute.
 */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { createInterface, type Interface } from "node:readline";
import { dropFolder, newFolder } from "../browser/localService.ts";
import { Checks } from "./Checks.ts";
import { startDemo } from "./demoService.ts";
import { byUid, feedRows, type Row } from "./feedRows.ts";
import { RecordingProxy } from "./RecordingProxy.ts";

const PORT = 19_287;
const READER = new URL("evolution_reader.py", import.meta.url).pathname;
const PYTHON = "/usr/bin/python3";

const sourceFile = (address: string): string => {
  const { hostname, port, pathname } = new URL(address);
  return [
    "[Data Source]\nDisplayName=Skin tests\nEnabled=true\nParent=webcal-stub",
    "[Calendar]\nBackendName=webcal\nSelected=true",
    `[Authentication]\nHost=${hostname}\nPort=${port}\nMethod=none`,
    "[Security]\nMethod=none",
    `[WebDAV Backend]\nResourcePath=${pathname}`,
    "[Refresh]\nEnabled=true\nIntervalMinutes=30",
    "[Offline]\nStaySynchronized=true\n",
  ].join("\n\n");
};

/** One subscription under a home and a message bus of its own. */
class Evolution {
  readonly #process: ChildProcess;
  readonly #lines: AsyncIterator<string>;
  readonly #reader: Interface;

  constructor(folder: string, address: string) {
    const [sources, runtime] = [join(folder, ".config", "evolution", "sources"), join(folder, "run")];
    mkdirSync(sources, { recursive: true });
    mkdirSync(runtime, { mode: 0o700 });
    writeFileSync(join(sources, "feed.source"), sourceFile(address));
    const home = {
      HOME: folder,
      XDG_CACHE_HOME: join(folder, ".cache"),
      XDG_CONFIG_HOME: join(folder, ".config"),
      XDG_DATA_HOME: join(folder, ".local"),
      XDG_RUNTIME_DIR: runtime,
    };
    this.#process = spawn("dbus-run-session", ["--", PYTHON, READER, "feed"], {
      env: { ...process.env, ...home, GIO_USE_PROXY_RESOLVER: "dummy", TZ: "America/New_York" },
      stdio: ["pipe", "pipe", "ignore"],
    });
    this.#reader = createInterface({ input: this.#process.stdout as NodeJS.ReadableStream });
    this.#lines = this.#reader[Symbol.asyncIterator]();
  }

  /** What it keeps, the next time it looks. */
  async kept(): Promise<readonly Row[]> {
    const line = await this.#lines.next();
    if (line.done) throw new Error("Evolution's calendar service ended before it answered");
    return byUid(JSON.parse(line.value) as readonly Row[]);
  }

  refresh(): void {
    this.#process.stdin?.write("refresh\n");
  }

  /** Without more to read the reader ends, and its message bus with all that it started. */
  async end(): Promise<void> {
    const ended = new Promise<void>((resolve) => this.#process.once("exit", () => resolve()));
    this.#process.stdin?.end();
    await ended;
    this.#reader.close();
  }
}

const checks = new Checks();

const main = async (): Promise<void> => {
  const demo = await startDemo(PORT);
  const proxy = await RecordingProxy.before(demo.origin);
  const folder = newFolder();
  const evolution = new Evolution(folder, proxy.through(demo.clientFeed));
  try {
    const first = await evolution.kept();
    const wanted = feedRows(proxy.recorded[0]?.body ?? "");
    checks.isTrue("the feed has events", wanted.length > 4, wanted);
    checks.isSame(`the client's feed is kept with its ${wanted.length} events`, first, wanted);
    evolution.refresh();
    checks.isSame("a second look changes nothing", await evolution.kept(), wanted);
    const [etag, again] = [proxy.recorded[0]?.answer["ETag"], proxy.recorded.slice(1)];
    checks.isTrue("it asked again", again.length > 0);
    const asked = again.map(({ headers, status }) => [headers["If-None-Match"], status]);
    checks.isSame(
      "it asks again with the ETag and is told that nothing changed",
      asked,
      again.map(() => [etag, 304]),
    );
    await demo.screenClient();
    evolution.refresh();
    const changed = await evolution.kept();
    checks.isSame("a change is followed", changed, feedRows(proxy.recorded.at(-1)?.body ?? ""));
    checks.isTrue("it was one", JSON.stringify(changed) !== JSON.stringify(first));
  } finally {
    await evolution.end();
    const file = process.env["RECORD"];
    if (file) writeFileSync(file, `${JSON.stringify(proxy.recorded, null, 2)}\n`);
    proxy.close();
    await demo.end();
    dropFolder(folder);
  }
};

await main().catch((error: unknown) => checks.isTrue("the run came to its end", false, String(error)));
process.exitCode = checks.close();
