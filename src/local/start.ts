/**
 * `npm start`: the whole service on this machine, with a demo salon whose diaries are read over HTTP.
 * Needs nothing from outside; Ctrl-C ends all of it.
 */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { type DemoMemory, prepareDemoSalon } from "./demoSalon.ts";
import { type DemoBook, serveDemoDiaries } from "./demoServer.ts";
import { findSecrets } from "./secrets.ts";
import { type LocalService, startWorkerd } from "./workerd.ts";

/** Where the storage and what the demo remembers are kept. */
const FOLDER = process.env["COUNTBACK_FOLDER"] ?? ".countback";
const MEMORY = `${FOLDER}/demo.json`;

const say = (text: string): void => {
  process.stdout.write(`${text}\n`);
};

const portFrom = (text: string | undefined): number => {
  const port = Number(text ?? 8787);
  if (Number.isInteger(port) && port >= 1 && port <= 65_534) return port;
  throw new Error(`PORT is ${text}: it must be a whole number from 1 to 65534, such as 8787`);
};

const recall = (): DemoMemory | undefined => {
  try {
    return JSON.parse(readFileSync(MEMORY, "utf8")) as DemoMemory;
  } catch {
    return undefined;
  }
};

interface PlanSeen {
  readonly standing: string;
  readonly booking: {
    readonly uid: string;
    readonly client: { readonly id: string; readonly name: string };
    readonly start: string;
    readonly summary: string;
  };
}

const ask = async <Answer>(origin: string, key: string, method: string, path: string): Promise<Answer> =>
  (await (await fetch(`${origin}${path}`, { method, headers: { authorization: `Bearer ${key}` } })).json()) as Answer;

/** Every address there is to try. */
const tell = async (
  origin: string,
  operatorKey: string,
  { key, feed }: DemoMemory,
  diaryPort: number,
): Promise<void> => {
  const { plans } = await ask<{ plans: PlanSeen[] }>(origin, key, "GET", "/api/salon/plans");
  const clients = new Map(plans.map(({ booking }) => [booking.client.id, booking.client.name]));
  say(`\nCountback is at ${origin}\n`);
  say(`Front door       ${origin}/`);
  say(`Desk             ${origin}/desk (sign in with the salon's key)`);
  say(`First visit      ${origin}/desk/new (with the operator's key)\n`);
  say(`Demo salon: Quillfen Colour Room (everyone in it is invented)`);
  say(`  salon feed     ${feed}`);
  say(`  its diaries    http://127.0.0.1:${diaryPort}/ines.ics`);
  say(`                 http://127.0.0.1:${diaryPort}/tomas.ics`);
  for (const [id, name] of clients) {
    const link = await ask<{ page: string; feed: string }>(origin, key, "POST", `/api/salon/clients/${id}/link`);
    const standings = plans.filter(({ booking }) => booking.client.id === id).map(({ standing }) => standing);
    say(`  ${name} (${[...new Set(standings)].join(", ")})`);
    say(`    page         ${link.page}`);
    say(`    feed         ${link.feed}`);
  }
  say(`\nKeys`);
  say(`  salon key      ${key}`);
  say(`  operator key   ${operatorKey}`);
  say(`\nTo try`);
  say(`  curl -H "Authorization: Bearer ${key}" ${origin}/api/salon/plans`);
  say(`  curl -H "Authorization: Bearer ${key}" ${origin}/api/salon/diaries`);
  say(`  curl -H "Authorization: Bearer ${key}" ${origin}/api/salon/clients`);
  say(`  curl -H "Authorization: Bearer ${key}" "${origin}/api/salon/records?format=csv"`);
  const told = plans.find(({ standing }) => standing === "ready") ?? plans[0];
  if (told) {
    const evidence = `${origin}/api/salon/evidence?booking=${encodeURIComponent(told.booking.uid)}&format=html`;
    say(`  curl -H "Authorization: Bearer ${key}" "${evidence}" > evidence.html`);
  }
  say(
    `  curl -H "Content-Type: application/json" -d '{"start":"2027-03-05T10:30","zone":"Europe/London"}' ${origin}/api/count-back`,
  );
  say(`  ${origin}/privacy`);
  say(`  ${origin}/healthz`);
  say(`\nIts storage is in ${FOLDER}/. Ctrl-C ends it.`);
};

const main = async (): Promise<void> => {
  const port = portFrom(process.env["PORT"]);
  const diaryPort = port + 1;
  mkdirSync(FOLDER, { recursive: true });
  const { secrets, made } = findSecrets();
  if (made.length > 0) say(`Made ${made.join(" and ")} and kept them in .dev.vars`);
  const book: DemoBook = { anchors: [], stage: "now" };
  const diaries = await serveDemoDiaries(book, diaryPort);
  let service: LocalService | undefined;
  let isEnding = false;
  const stop = async (code: number): Promise<void> => {
    if (isEnding) return;
    isEnding = true;
    diaries.close();
    diaries.closeAllConnections();
    await service?.stop();
    process.exit(code);
  };
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.on(signal, () => void stop(0));
  service = await startWorkerd(port, FOLDER, secrets);
  void service.ended.then((code) => stop(code));
  try {
    const memory = await prepareDemoSalon(service.origin, secrets.OPERATOR_KEY, book, diaryPort, recall());
    writeFileSync(MEMORY, JSON.stringify(memory), { mode: 0o600 });
    await tell(service.origin, secrets.OPERATOR_KEY, memory, diaryPort);
  } catch (error) {
    explain(error);
    await stop(1);
  }
};

const explain = (error: unknown): void => {
  process.stderr.write(`Countback did not start: ${error instanceof Error ? error.message : String(error)}\n`);
};

main().catch((error: unknown) => {
  explain(error);
  process.exit(1);
});
