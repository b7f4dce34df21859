/** A real subscriber: vdirsyncer from Debian keeps the demo's feeds, khal reads them. No event is lost, none written twice. */
import { execFileSync } from "node:child_process";
import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { dropFolder, newFolder, type Started, startService } from "./localService.ts";

const folder = newFolder();
let service: Started;

beforeAll(async () => {
  service = await startService(18_987, folder);
});
afterAll(async () => {
  await service?.interrupt();
  dropFolder(folder);
});

const storages = (name: string, address: string): string => `
[pair ${name}]
a = "${name}_remote"
b = "${name}_local"
collections = null
[storage ${name}_remote]
type = "http"
url = "${address}"
[storage ${name}_local]
type = "filesystem"
path = "${join(folder, name)}"
fileext = ".ics"
`;

const KHAL = `
[calendars]
[[client]]
path = ${join(folder, "client")}
readonly = True
[locale]
timeformat = %H:%M
dateformat = %Y-%m-%d
longdateformat = %Y-%m-%d
datetimeformat = %Y-%m-%d %H:%M
longdatetimeformat = %Y-%m-%d %H:%M
`;

const run = (command: string, ...options: readonly string[]): string =>
  execFileSync("sh", ["-c", `"$0" "$@" 2>&1`, command, ...options], { encoding: "utf8", input: "y\ny\ny\ny\n" });

test("every event of both feeds arrives, a second look changes nothing, and khal shows what to do", async () => {
  const mara = /Mara Quillfeather.*?feed\s+(http\S+)/s.exec(service.printed())?.[1] ?? "";
  const feeds = { salon: service.address("salon feed"), client: mara };
  const config = join(folder, "vdirsyncer");
  mkdirSync(join(folder, "status"));
  for (const name of Object.keys(feeds)) mkdirSync(join(folder, name));
  const general = `[general]\nstatus_path = "${join(folder, "status")}"\n`;
  writeFileSync(
    config,
    general +
      Object.entries(feeds)
        .map(([name, address]) => storages(name, address))
        .join(""),
  );
  run("vdirsyncer", "-c", config, "discover");
  expect(run("vdirsyncer", "-c", config, "sync")).not.toMatch(/warning|error/i);
  for (const [name, address] of Object.entries(feeds)) {
    const events = (await (await fetch(address)).text()).split("BEGIN:VEVENT").length - 1;
    expect(events).toBeGreaterThan(4);
    expect(readdirSync(join(folder, name))).toHaveLength(events);
  }
  expect(run("vdirsyncer", "-c", config, "sync")).not.toMatch(/copying|deleting/i);
  writeFileSync(join(folder, "khal"), KHAL);
  const today = new Date().toISOString().slice(0, 10);
  const shown = run("khal", "-c", join(folder, "khal"), "list", "--format", "{title}", today, "40d");
  for (const words of [
    "Put your skin test on by",
    "Take the skin test off 48 hours after",
    "Your colour at Quillfen Colour Room",
  ]) {
    expect(shown).toContain(words);
  }
});
