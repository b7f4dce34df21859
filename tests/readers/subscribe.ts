/** Two programs from Debian subscribe to feeds: vdirsyncer fetches them over HTTP into folders, khal lists what is there. */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { run } from "./runReader.ts";
import type { ReadFeed, When } from "./types.ts";

/** What is printed although only warnings should be. */
export interface Subscribed {
  readonly printed: string;
  readonly folder: string;
}

const pairOf = (name: string, address: string, folder: string): string => {
  // A section's name holds letters, digits and underscores.
  const pair = name.replaceAll("-", "_");
  return `
[pair ${pair}]
a = "${pair}_remote"
b = "${pair}_local"
collections = null
[storage ${pair}_remote]
type = "http"
url = "${address}/${name}.ics"
[storage ${pair}_local]
type = "filesystem"
path = "${join(folder, "calendars", name)}"
fileext = ".ics"
`;
};

/** Serves the feeds that lie in a folder for as long as `during` takes. */
const serving = async <Result>(feeds: string, during: (address: string) => Promise<Result>): Promise<Result> => {
  const server = createServer((request, response) => {
    response.writeHead(200, { "content-type": "text/calendar; charset=utf-8" });
    response.end(readFileSync(join(feeds, (request.url ?? "/").slice(1))));
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  try {
    return await during(`http://127.0.0.1:${(server.address() as AddressInfo).port}`);
  } finally {
    server.closeAllConnections();
    server.close();
  }
};

/** One run of vdirsyncer for all feeds, each a collection of its own. */
export const subscribe = async (
  names: readonly string[],
  feeds: string,
  folder: string,
  zone: string,
): Promise<Subscribed> => {
  mkdirSync(join(folder, "status"), { recursive: true });
  for (const name of names) mkdirSync(join(folder, "calendars", name), { recursive: true });
  const config = join(folder, "vdirsyncer");
  const only = ["-v", "WARNING", "-c", config];
  const printed = await serving(feeds, async (address) => {
    const pairs = names.map((name) => pairOf(name, address, folder)).join("");
    writeFileSync(config, `[general]\nstatus_path = "${join(folder, "status")}"\n${pairs}`);
    const discovered = await run("vdirsyncer", [...only, "discover"], zone);
    return discovered + (await run("vdirsyncer", [...only, "sync"], zone));
  });
  return { printed, folder };
};

/** A zone whose clocks never change, so that what khal prints of it is one moment. */
export interface ShownIn {
  readonly zone: string;
  readonly offset: number;
}

const khalConfig = (folder: string, zone: string): string => `
[calendars]
[[feeds]]
path = ${join(folder, "calendars", "*")}
type = discover
[locale]
timeformat = %H:%M
dateformat = %Y-%m-%d
longdateformat = %Y-%m-%d
datetimeformat = %Y-%m-%d %H:%M
longdatetimeformat = %Y-%m-%dT%H:%M:%S
local_timezone = ${zone}
default_timezone = ${zone}
[sqlite]
path = ${join(folder, "khal-database")}
`;

/** Characters that no feed holds keep the rows and their fields apart. */
const [ROW, FIELD, END] = ["\u001e", "\u001f", "\u001d"];
const FIELDS = [
  "calendar",
  "uid",
  "all-day",
  "start-long",
  "end-long",
  "status",
  "alarm-symbol",
  "title",
  "description",
];

const DAY_MS = 86_400_000;
/** khal's last day of an all-day event is its last one, iCalendar's the day after. */
const dayAfter = (day: string): string => new Date(Date.parse(day) + DAY_MS).toISOString().slice(0, 10);

/** @returns what khal says of each calendar; it gives no UID back, since vdirsyncer's are hashes of the events' content */
export const listWithKhal = async (
  folder: string,
  shownIn: ShownIn,
  zone: string,
  from: string,
  to: string,
): Promise<{ readonly printed: string; readonly feeds: ReadonlyMap<string, ReadFeed["events"]> }> => {
  const config = join(folder, "khal");
  writeFileSync(config, khalConfig(folder, shownIn.zone));
  const format = ROW + FIELDS.map((name) => `{${name}}`).join(FIELD) + END;
  const listed = await run(
    "khal",
    ["-v", "WARNING", "-c", config, "list", "-df", "", "--format", format, from, to],
    zone,
  );
  const [before = "", ...rows] = listed.split(ROW);
  let printed = before;
  const feeds = new Map<string, Map<string, ReadFeed["events"][number]>>();
  for (const row of rows) {
    const [said = "", after = ""] = row.split(END);
    printed += after.trim();
    const [calendar = "", uid = "", allDay, start = "", end = "", status = "", bell, summary, description] =
      said.split(FIELD);
    const when = (text: string): When => Date.parse(`${text}Z`) / 1000 - shownIn.offset;
    const events = feeds.get(calendar) ?? new Map<string, ReadFeed["events"][number]>();
    feeds.set(calendar, events);
    // An event of several days is listed on each of them.
    events.set(uid, {
      uid,
      start: allDay === "True" ? start : when(start),
      end: allDay === "True" ? dayAfter(end) : when(end),
      status: status.trim(),
      summary: summary as string,
      description: description as string,
      alarms: bell === "" ? [] : [{ uid: null, at: 0, words: "" }],
    });
  }
  return { printed, feeds: new Map([...feeds].map(([name, events]) => [name, [...events.values()]])) };
};
