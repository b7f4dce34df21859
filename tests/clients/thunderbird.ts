/**
 * Debian's Thunderbird, subscribed to the demo's salon feed and to one client's, on a screen that nobody looks at: what it
 * asks, keeps and shows, and whether it follows a change and a revoked link. `SCREENSHOTS=folder` keeps pictures of the
 * screen, `RECORD=file` the requests, `CLIENT_ZONE` moves the machine to another zone. Takes about two minutes.
 */
import { writeFileSync } from "node:fs";
import { Checks } from "./Checks.ts";
import { type DemoService, startDemo } from "./demoService.ts";
import { feedRows } from "./feedRows.ts";
import { type Recorded, RecordingProxy } from "./RecordingProxy.ts";
import { RunningThunderbird } from "./RunningThunderbird.ts";
import { lookAround } from "./thunderbirdLooks.ts";
import { CALENDAR_LIST, COMPLAINTS, DETECT, REFRESH } from "./thunderbirdScripts.ts";
import { cachedRows } from "./thunderbirdCache.ts";
import { until } from "./until.ts";

const PORT = 19_087;
const ZONE = process.env["CLIENT_ZONE"] ?? "Europe/London";
/** Thunderbird asks again after a minute at the soonest. */
const ASKED_AGAIN_MS = 90_000;
const SOON_MS = 20_000;

interface Watched {
  readonly id: string;
  readonly name: string;
  readonly path: string;
}
// Named as the subscribe dialog names them: by the last part of the address.
const SALON: Watched = {
  id: "5b0f2c1e-0000-4000-8000-000000000001",
  name: "deadlines",
  path: "/s/{link}/deadlines.ics",
};
const CLIENT: Watched = {
  id: "5b0f2c1e-0000-4000-8000-000000000002",
  name: "skin-test",
  path: "/c/{link}/skin-test.ics",
};
const BOTH = [SALON, CLIENT];

const checks = new Checks();

const gets = (proxy: RecordingProxy, { path }: Watched): readonly Recorded[] =>
  proxy.recorded.filter((each) => each.method === "GET" && each.path === path);
const statuses = (proxy: RecordingProxy, of: Watched): string =>
  gets(proxy, of)
    .map(({ status }) => status)
    .join(" ");
const isSameAsKept = (thunderbird: RunningThunderbird, { id }: Watched, body: string): boolean =>
  JSON.stringify(cachedRows(thunderbird.profile, id)) === JSON.stringify(feedRows(body));

/** What was last answered with a body is what Thunderbird keeps: every event, none more, at the same instants. */
const checkKept = async (thunderbird: RunningThunderbird, proxy: RecordingProxy, when: string): Promise<void> => {
  for (const watched of BOTH) {
    const body = gets(proxy, watched).findLast(({ status }) => status === 200)?.body ?? "";
    await until(() => isSameAsKept(thunderbird, watched, body), SOON_MS);
    const [kept, wanted] = [cachedRows(thunderbird.profile, watched.id), feedRows(body)];
    checks.isTrue(`${when}, ${watched.name} has events`, wanted.length > 4, wanted);
    checks.isSame(`${when}, ${watched.name} is kept with the feed's ${wanted.length} events`, kept, wanted);
  }
};

const checkAsking = (proxy: RecordingProxy): void => {
  for (const watched of BOTH) {
    const [first, second] = gets(proxy, watched);
    checks.isSame(`${watched.name} is fetched, then asked for with its ETag`, [statuses(proxy, watched)], ["200 304"]);
    checks.isSame(`${watched.name}: the ETag comes back`, second?.headers["If-None-Match"], first?.answer["ETag"]);
    checks.isTrue(`${watched.name}: a 304 has no body`, second?.body === "", second?.body);
  }
};

interface Listed {
  readonly name: string;
  readonly isDisabled: boolean;
  readonly trouble: boolean;
}
const listed = (name: string, isDisabled: boolean): Listed => ({ name, isDisabled, trouble: false });

const run = async (demo: DemoService, proxy: RecordingProxy, thunderbird: RunningThunderbird): Promise<void> => {
  const list = (): Promise<readonly Listed[]> => thunderbird.run<readonly Listed[]>(CALENDAR_LIST);
  await until(() => BOTH.every((each) => gets(proxy, each).length > 0), SOON_MS);
  await checkKept(thunderbird, proxy, "at first");
  checks.isSame(
    "both calendars are listed without trouble",
    await list(),
    BOTH.map(({ name }) => listed(name, false)),
  );
  await lookAround(thunderbird, CLIENT.id, feedRows(gets(proxy, CLIENT)[0]?.body ?? ""), checks);
  await until(() => BOTH.every((each) => gets(proxy, each).length > 1), ASKED_AGAIN_MS);
  checkAsking(proxy);

  await demo.screenClient();
  for (const { id } of BOTH) await thunderbird.run(REFRESH, id);
  await until(() => BOTH.every((each) => gets(proxy, each).length > 2), SOON_MS);
  for (const each of BOTH) {
    checks.isSame(`a change is fetched: ${each.name}`, statuses(proxy, each), "200 304 200");
    const [first, , third] = gets(proxy, each);
    checks.isTrue(`${each.name} did change`, first?.body !== third?.body);
  }
  await checkKept(thunderbird, proxy, "after a change");
  checks.isSame("the error console says nothing of calendars", await thunderbird.run(COMPLAINTS), []);
  await thunderbird.picture("changed");

  const before = proxy.recorded.length;
  const found = await thunderbird.run(DETECT, proxy.through(demo.clientFeed));
  const asked = proxy.recorded.slice(before).map(({ method, status }) => `${method} ${status}`);
  checks.isSame("the subscribe dialog needs one HEAD", asked, ["HEAD 200"]);
  checks.isSame("the subscribe dialog finds the calendar", found, [{ name: CLIENT.name, type: "ics" }]);

  await demo.renewLink();
  await thunderbird.run(REFRESH, CLIENT.id);
  await until(() => gets(proxy, CLIENT).at(-1)?.status === 410, SOON_MS);
  const after = [listed(SALON.name, false), listed(CLIENT.name, true)];
  checks.isSame("a revoked link switches its calendar off, and no other", await list(), after);
  await thunderbird.picture("revoked");
};

const main = async (): Promise<void> => {
  process.stdout.write(`Thunderbird ${RunningThunderbird.version()}, its clocks in ${ZONE}\n`);
  const demo = await startDemo(PORT);
  const proxy = await RecordingProxy.before(demo.origin);
  try {
    const thunderbird = await RunningThunderbird.start(ZONE, [
      { id: SALON.id, name: SALON.name, address: proxy.through(demo.salonFeed), colour: "#008080" },
      { id: CLIENT.id, name: CLIENT.name, address: proxy.through(demo.clientFeed), colour: "#7a3e9d" },
    ]);
    try {
      await run(demo, proxy, thunderbird);
    } finally {
      await thunderbird.quit();
      thunderbird.dropProfile();
    }
  } finally {
    const file = process.env["RECORD"];
    if (file) writeFileSync(file, `${JSON.stringify(proxy.recorded, null, 2)}\n`);
    proxy.close();
    await demo.end();
  }
};

await main().catch((error: unknown) => checks.isTrue("the run came to its end", false, String(error)));
process.exitCode = checks.close();
