/** The evidence of one appointment, as JSON and as the page, against the log: nothing missing, nothing of another person. */
import { iso } from "./calendar.ts";
import { checkPage } from "./judge-page.ts";
import { casesOf, endOfCase, type LogCase } from "./keeping.ts";
import type { LogBooking, LogRecord } from "./log.ts";
import type { World } from "./world.ts";

const HEADINGS = [
  "productName",
  "company",
  "batchNumber",
  "firstUse",
  "frequency",
  "professionalUse",
  "applicationSite",
  "useStopped",
  "firstSymptomAfterStart",
  "firstSymptomAfterLastUse",
  "signs",
  "diagnosis",
  "bodyAreas",
  "seriousness",
  "doctorConfirmed",
];

/** A record as the contract writes it: what the log has of it, in one text. */
export const lineOf = (world: World, record: LogRecord): string => {
  const {
    id,
    told,
    booking,
    kind,
    at,
    recorded,
    outcome,
    route,
    by,
    via,
    product,
    shade,
    batch,
    site,
    reason,
    note,
    corrects,
  } = record;
  const reaction = record.reaction && HEADINGS.map((heading) => record.reaction?.[heading] ?? null);
  const start = record.start === null ? null : iso(record.start);
  const around = [record.settings, world.calendar.zone, record.questions, start];
  return JSON.stringify([
    id,
    told,
    booking,
    kind,
    iso(at),
    iso(recorded),
    outcome,
    route,
    by,
    via,
    product,
    shade,
    batch,
    site,
    reason,
    note,
    corrects,
    reaction,
    ...around,
  ]);
};

export interface RecordSeen {
  readonly id: string;
  readonly reaction: Readonly<Record<string, string | null>> | null;
  readonly correctedBy?: string | null;
  readonly [field: string]: unknown;
}

export const seenLine = (row: RecordSeen): string => {
  const fields = [
    "id",
    "client",
    "booking",
    "kind",
    "at",
    "recorded",
    "outcome",
    "route",
    "by",
    "via",
    "product",
    "shade",
    "batch",
    "site",
    "reason",
    "note",
    "corrects",
  ];
  const reaction = row.reaction && HEADINGS.map((heading) => row.reaction?.[heading] ?? null);
  return JSON.stringify([
    ...fields.map((field) => row[field]),
    reaction,
    row["settings"],
    row["zone"],
    row["questions"],
    row["appointmentStart"],
  ]);
};

interface EvidenceSeen {
  readonly client: { readonly id: string; readonly name: string };
  readonly booking: { readonly start: string; readonly diary: string; readonly cancelled: string | null };
  readonly plan: {
    readonly route: string | null;
    readonly standing: string;
    readonly booking: { readonly client: { readonly id: string } };
  } | null;
  readonly records: readonly RecordSeen[];
  readonly foreign: readonly RecordSeen[];
  readonly earlier: readonly RecordSeen[];
  readonly stops: readonly RecordSeen[];
  readonly screenings: readonly {
    readonly at: string;
    readonly version: number;
    readonly answers: unknown;
    readonly outcome: unknown;
    readonly records: unknown;
  }[];
  readonly consents: readonly { readonly at: string; readonly given: boolean }[];
  readonly decisions: readonly {
    readonly kind: string;
    readonly at: string;
    readonly by: string;
    readonly client: string;
    readonly other: string | null;
    readonly bookings: readonly string[];
    readonly reason: string;
  }[];
  readonly until: string | null;
}

const hasTest = ({ records }: LogCase): boolean => records.some(({ kind }) => kind === "applied" || kind === "read");
const isStop = ({ kind, outcome }: LogRecord): boolean =>
  kind === "reacted" || ["reaction", "not-sure", "do-not-colour"].includes(outcome ?? "");
const numberOf = ({ id }: LogRecord): number => Number(id.slice(1));
export const inOrder = (records: readonly LogRecord[]): readonly LogRecord[] =>
  records.toSorted(
    (one, other) => one.at - other.at || one.recorded - other.recorded || numberOf(one) - numberOf(other),
  );

export const judgeEvidence = async (world: World, booking: LogBooking): Promise<void> => {
  const { log } = world;
  const path = `/evidence?booking=${encodeURIComponent(booking.uid)}`;
  const answer = await world.ask("GET", path);
  world.count("evidence compared");
  if (booking.gone) {
    if (answer.status !== 404) world.fault(`evidence of ${booking.uid}, of which nothing is kept, is ${answer.status}`);
    await answer.body?.cancel();
    return;
  }
  if (answer.status !== 200)
    return world.fault(`evidence of ${booking.uid} is ${answer.status}: ${await answer.text()}`);
  const seen = await answer.json<EvidenceSeen>();
  const person = log.ownerOfBooking(booking);
  const holder = log.holder(person);
  const same = (what: string, got: unknown, wanted: unknown): void => {
    const [left, right] = [JSON.stringify(got), JSON.stringify(wanted)];
    if (left !== right) world.fault(`evidence of ${booking.uid} (${person}), ${what}: ${left}, not ${right}`);
  };
  same("client", [seen.client.id, seen.client.name], [person, holder.face.name]);
  same("start", seen.booking.start, iso(booking.start));
  same("diary", seen.booking.diary, booking.chair);
  same("cancelled", seen.booking.cancelled, booking.cancelled === null ? null : iso(booking.cancelled));
  same("plan", seen.plan?.booking.client.id ?? null, person);
  const cases = casesOf(log, person);
  const own = cases.find(({ name }) => name === booking.uid);
  const records = inOrder(own?.records ?? []);
  const list = (rows: readonly RecordSeen[]): readonly string[] =>
    rows.map((row) => `${seenLine(row)} ${row.correctedBy}`);
  const wanted = (rows: readonly LogRecord[]): readonly string[] =>
    inOrder(rows).map((row) => `${lineOf(world, row)} ${log.correctionOf(row)}`);
  // What it rests on is the plan's to say; the log says whether that is one whole case of hers, looked at and clear before.
  const isOnFile = seen.plan?.route === "on-file";
  const rested = cases.find(
    ({ name, records: all }) => name !== booking.uid && all.some(({ id }) => id === seen.earlier[0]?.id),
  );
  const isClear = (record: LogRecord): boolean =>
    record.kind === "read" &&
    record.outcome === "clear" &&
    record.at < booking.start &&
    log.correctionOf(record) === null;
  const earlier = isOnFile && rested?.records.some(isClear) ? rested.records : [];
  if (isOnFile && seen.plan?.standing === "ready" && own && !hasTest(own))
    same("that it rests on a test", earlier.length > 0, true);
  const stops = cases.flatMap((each) => each.records).filter((each) => each.booking !== booking.uid && isStop(each));
  same("records", list(seen.records), wanted(records));
  same("foreign records", list(seen.foreign), []);
  same("the earlier test", list(seen.earlier), wanted(earlier));
  same("stops", list(seen.stops), wanted(stops));
  const screenings = own?.screenings ?? [];
  same(
    "answers",
    seen.screenings.map((each) => [each.at, each.version, each.answers, each.outcome, each.records]),
    screenings.map((each) => [iso(each.at), each.version, each.answers, each.outcome, each.records]),
  );
  const byTime = <Row extends { readonly at: number }>(rows: readonly Row[]): readonly Row[] =>
    rows.toSorted((one, other) => one.at - other.at);
  const consents = byTime(log.consentsOf(person));
  same(
    "consents",
    seen.consents.map((each) => [each.at, each.given]),
    consents.map((each) => [iso(each.at), each.given]),
  );
  // Of a split's bookings she is shown her own, by their starts, and nobody else's.
  const hersOf = (uids: readonly string[]): readonly string[] =>
    uids
      .flatMap((uid) => log.bookings.get(uid) ?? [])
      .filter((each) => !each.gone && log.ownerOfBooking(each) === person)
      .toSorted((one, other) => one.start - other.start || (one.uid < other.uid ? -1 : 1))
      .map(({ uid }) => uid);
  const deeds = log.deeds
    .filter(({ client, other }) => client === person || other === person)
    .map((each) => ({ ...each, bookings: hersOf(each.bookings) }));
  same(
    "decisions",
    seen.decisions.map((each) => [each.kind, each.at, each.by, each.client, each.other, each.bookings, each.reason]),
    deeds.map((each) => [each.kind, iso(each.at), each.by, each.client, each.other, each.bookings, each.reason]),
  );
  same("until", seen.until, own && records.length > 0 ? iso(endOfCase(log, own)) : null);
  const page = await (await world.ask("GET", `${path}&format=html`)).text();
  world.count("evidence pages compared");
  const shown = [...records, ...inOrder(earlier), ...inOrder(stops)];
  const showed = ({ kind, outcome, reaction }: LogRecord): boolean =>
    reaction !== null || kind === "reacted" || outcome === "reaction";
  const reacted = [...records, ...inOrder(stops)].filter(showed);
  checkPage(world, booking, holder, { page, shown, reacted, screenings, consents, deeds });
};
