/** What is told of an appointment: records by the desk and by the client's link, answers to the questions, consent. */
import { iso, MINUTE, type Seconds } from "./calendar.ts";
import type { LogBooking, LogRecord } from "./log.ts";
import type { World } from "./world.ts";

export type Said = Partial<Omit<LogRecord, "id" | "told" | "taken" | "gone" | "recorded" | "settings" | "start">> &
  Pick<LogRecord, "kind">;

const NOTHING = {
  outcome: null,
  route: null,
  by: null,
  product: null,
  shade: null,
  batch: null,
  site: null,
  reason: null,
  note: null,
  corrects: null,
  reaction: null,
  questions: null,
} as const;

/** Texts that a table, a page or a log could stumble over. */
export const hostile = (world: World): string => {
  const word = world.token("note");
  return world.dice.pick([
    `=HYPERLINK("http://x.example","${word}")`,
    `<b>${word}</b><script>alert(1)</script>`,
    `first line\nsecond "line", ${word}\n\nfourth`,
    `+44 ${word} 'single' & "double"`,
    `@SUM(1) ${word} – “curled” 🌿`,
    `-${word}\t&lt;b&gt; &amp;amp; </p></div>`,
    word,
  ]);
};

const bodyOf = (said: Said, at: Seconds, booking: string | null): Record<string, unknown> => {
  const { at: _at, questions: _questions, ...rest } = said;
  const told = Object.entries({ ...rest, booking, at: iso(at) }).filter(
    ([, value]) => value !== null && value !== undefined,
  );
  return Object.fromEntries(told);
};

const keep = async (
  world: World,
  answer: Response,
  said: Said,
  booking: string | null,
  told: string,
  at: Seconds,
): Promise<string | null> => {
  if (answer.status !== 201) {
    world.fault(`a ${said.kind} of ${booking} was refused: ${answer.status} ${await answer.text()}`);
    return null;
  }
  const { id } = await answer.json<{ id: string }>();
  if (id !== world.log.nextRecord) world.fault(`a record got ${id}, not ${world.log.nextRecord}`);
  const settings = world.log.settings;
  // Of an appointment it is told of whom the diary names there.
  const of = (booking === null ? undefined : world.log.bookings.get(booking)?.under) ?? told;
  world.log.addRecord({
    ...NOTHING,
    via: "api",
    ...said,
    id,
    told: of,
    taken: null,
    booking,
    at,
    recorded: world.now,
    settings,
    start: (booking === null ? undefined : world.log.bookings.get(booking)?.start) ?? null,
    gone: false,
  });
  world.count("records");
  if (booking !== null) world.touched.add(booking);
  return id;
};

/** Whether anything can still be told of an appointment. */
export const isOpen = (world: World, booking: LogBooking): boolean => {
  const owner = world.log.holders.get(world.log.ownerOfBooking(booking));
  return !booking.gone && owner !== undefined && !owner.gone && owner.erased === null;
};

/** Told at the desk, a while after it happened; gives the record's number. */
export const tell = async (world: World, booking: LogBooking, said: Said): Promise<string | null> => {
  if (!isOpen(world, booking) || world.log.records.get(said.corrects ?? "")?.gone) return null;
  const at = said.at ?? world.now - world.dice.between(0, 40) * MINUTE;
  const full: Said = { via: "desk", by: world.dice.pick(["Ines", "Tomas", 'O\'Hara & "Bo"']), ...said };
  const body = bodyOf(full, at, booking.uid);
  const answer = await world.ask("POST", "/records", body);
  return keep(world, answer, full, booking.uid, world.log.ownerOfBooking(booking), at);
};

/** Told by the client through her link. */
export const report = async (world: World, booking: LogBooking, said: Said): Promise<string | null> => {
  if (!isOpen(world, booking)) return null;
  const owner = world.log.ownerOfBooking(booking);
  const at = world.now - world.dice.between(0, 40) * MINUTE;
  const answer = await world.post(`${await world.page(owner)}/records`, bodyOf(said, at, booking.uid));
  return keep(world, answer, { ...said, via: "client-link" }, booking.uid, owner, at);
};

type Yes = Readonly<Record<string, string>>;
const GROUNDS: Yes = {
  "under-16": "under-16",
  scalp: "other",
  "past-reaction": "past-reaction",
  "tattoo-reaction": "past-reaction",
};
/** The one that reaches farthest last. */
const REACH = ["other", "under-16", "past-reaction"];

/** What the answers come to, by the contract: outcome, and the ground of each record. */
const judge = (answers: Yes): { readonly outcome: string | null; readonly reasons: readonly (string | null)[] } => {
  const yes = Object.keys(answers).filter((id) => answers[id] === "yes");
  const grounds = REACH.filter((ground) => yes.some((id) => GROUNDS[id] === ground));
  if (grounds.length > 0) return { outcome: "do-not-colour", reasons: grounds };
  if (Object.values(answers).includes("not-sure")) return { outcome: null, reasons: [] };
  return { outcome: yes.length > 0 ? "test-needed" : "pass", reasons: [null] };
};

/** Answers the questions by the client's link. */
export const answer = async (world: World, booking: LogBooking): Promise<void> => {
  if (!isOpen(world, booking)) return;
  const { log, dice, now } = world;
  const owner = log.ownerOfBooking(booking);
  const address = `${await world.page(owner)}/screening`;
  const asked = await world.send(address, { headers: { accept: "application/json" } });
  const { version, questions } = await asked.json<{ version: number; questions: { id: string }[] }>();
  const answers: Record<string, string> = Object.fromEntries(questions.map(({ id }) => [id, "no"]));
  const odd = dice.weighted<readonly [string, string] | null>([
    [null, 88],
    [["tattoo", "yes"], 3],
    [["health", "yes"], 3],
    [["elsewhere", "not-sure"], 3],
    [["scalp", "yes"], 1.5],
    [["past-reaction", "yes"], 1],
    [["under-16", "yes"], 0.5],
  ]);
  if (odd && odd[0] in answers) answers[odd[0]] = odd[1];
  if (odd && dice.chance(0.1)) answers["scalp"] = "yes";
  const told = await world.post(address, { version, consent: true, answers, booking: booking.uid });
  if (told.status !== 201)
    return world.fault(`answers of ${booking.uid} were refused: ${told.status} ${await told.text()}`);
  const { outcome, reasons } = judge(answers);
  const said = (await told.json<{ outcome: string | null }>()).outcome;
  if (said !== outcome) world.fault(`answers came to ${said}, not ${outcome}`);
  const records: string[] = [];
  for (const reason of reasons) {
    const id = log.nextRecord;
    records.push(id);
    const own = { kind: "screened", outcome, reason, via: "client-link", questions: version, settings: log.settings };
    log.addRecord({
      ...NOTHING,
      ...own,
      id,
      told: owner,
      taken: null,
      booking: booking.uid,
      at: now,
      recorded: now,
      start: booking.start,
      gone: false,
    });
    world.count("records");
  }
  log.addScreening({
    told: owner,
    taken: null,
    booking: booking.uid,
    at: now,
    version,
    outcome,
    records,
    answers,
    gone: false,
  });
  log.addConsent({ told: owner, at: now, given: true, gone: false });
  world.count("screenings");
  world.touched.add(booking.uid);
};

/** She takes her consent back: all her answers are emptied, what came of them stays. */
export const withdraw = async (world: World, person: string): Promise<void> => {
  const { log, now } = world;
  const given =
    log
      .consentsOf(person)
      .toSorted((one, other) => one.at - other.at)
      .at(-1)?.given ?? false;
  const said = await world.post(`${await world.page(person)}/consent`, { consent: false });
  if (said.status !== (given ? 201 : 200))
    world.fault(`withdrawing by ${person} was answered ${said.status}, given: ${given}`);
  if (!given) return;
  log.addConsent({ told: person, at: now, given: false, gone: false });
  for (const row of log.screeningsOf(person)) row.answers = null;
  for (const { uid } of log.bookingsOf(person)) world.touched.add(uid);
  world.count("consents withdrawn");
};
