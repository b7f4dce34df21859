/**
 * Prints what calendar clients of this machine ask for, seen by the recording proxy: what requests.json calls "recorded
 * here". `CLIENT='command with "$FEED"'` adds one more to those that Debian's packages bring.
 */
import { spawn } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { dropFolder, newFolder } from "../browser/localService.ts";
import { startDemo } from "./demoService.ts";
import { RecordingProxy } from "./RecordingProxy.ts";

const PORT = 19_187;

const vdirsyncerSettings = (folder: string, address: string): string => `
[general]
status_path = "${join(folder, "status")}"
[pair feed]
a = "feed_remote"
b = "feed_local"
collections = null
[storage feed_remote]
type = "http"
url = "${address}"
[storage feed_local]
type = "filesystem"
path = "${join(folder, "events")}"
fileext = ".ics"
`;

/** Each asks for the feed twice, since only the second time can be conditional. */
const COMMANDS: readonly (readonly [string, string])[] = [
  [
    "vdirsyncer",
    `yes | vdirsyncer -c vdirsyncer.ini discover; for time in 1 2; do vdirsyncer -c vdirsyncer.ini sync; done`,
  ],
  ["curl with an ETag", `for time in 1 2; do curl --etag-save etag --etag-compare etag -o curl.ics "$FEED"; done`],
  ["curl with a date", `curl -R -o dated.ics "$FEED"; curl --compressed -R -z dated.ics -o dated.ics "$FEED"`],
  ["curl -I", `curl -I "$FEED"`],
  ["wget -N", `for time in 1 2; do wget -N "$FEED"; done`],
  ...(process.env["CLIENT"] ? [["CLIENT", process.env["CLIENT"]] as const] : []),
];

const run = (folder: string, command: string, feed: string): Promise<void> =>
  new Promise((resolve, reject) => {
    const child = spawn("sh", ["-c", command], { cwd: folder, env: { ...process.env, FEED: feed }, stdio: "ignore" });
    child.once("error", reject);
    child.once("exit", () => resolve());
  });

const main = async (): Promise<void> => {
  const folder = newFolder();
  const demo = await startDemo(PORT);
  const proxy = await RecordingProxy.before(demo.origin);
  const feed = proxy.through(demo.clientFeed);
  for (const name of ["status", "events"]) mkdirSync(join(folder, name));
  writeFileSync(join(folder, "vdirsyncer.ini"), vdirsyncerSettings(folder, feed));
  try {
    for (const [client, command] of COMMANDS) {
      const before = proxy.recorded.length;
      await run(folder, command, feed);
      const requests = proxy.recorded.slice(before).map(({ method, headers, status }) => ({ method, headers, status }));
      process.stdout.write(`${JSON.stringify({ client, requests }, null, 2)}\n`);
    }
  } finally {
    proxy.close();
    await demo.end();
    dropFolder(folder);
  }
};

await main();
