/** What a person at the salon decides about clients: who is who, what she asked for, her erasure, other settings. */
import { aheadOf, goOnErasing } from "./bookings.ts";
import { DAY, iso } from "./calendar.ts";
import { eraseFromLog } from "./erasing.ts";
import { searchErased } from "./judge-storage.ts";
import { catchUp } from "./keeping.ts";
import type { Holder, LogDeed } from "./log.ts";
import type { Woman } from "./people.ts";
import { withdraw } from "./telling.ts";
import type { World } from "./world.ts";

const BY = "Ines";

let reason = "";

const decide = async (world: World, path: string, body: Record<string, unknown>, wanted = 200): Promise<Response> => {
  reason = world.token("why");
  const answer = await world.ask("POST", `/clients/${path}`, { ...body, by: BY, via: "desk", reason });
  if (answer.status !== wanted) world.fault(`${path}: ${answer.status} ${await answer.clone().text()}`);
  return answer;
};

const note = (world: World, deed: Pick<LogDeed, "client" | "kind"> & Partial<LogDeed>): void => {
  const { log, now } = world;
  log.deeds = [...log.deeds, { other: null, bookings: [], by: BY, reason, at: now, ...deed }];
};

const touchAll = (world: World, ...persons: readonly string[]): void => {
  for (const person of persons) for (const { uid } of world.log.bookingsOf(person)) world.touched.add(uid);
};

const isClient = (holder: Holder | undefined): holder is Holder =>
  holder !== undefined && !holder.gone && holder.erased === null && holder.erasing === null;

const holdersOf = ({ log }: World, { faces }: Woman): readonly Holder[] =>
  faces.flatMap((face) => log.known(face) ?? []).filter(isClient);

/** "All bookings under this bare name are one woman's." */
export const confirmOne = async (world: World, woman: Woman): Promise<void> => {
  const [holder] = holdersOf(world, woman);
  if (!holder || holder.confirmed) return;
  await decide(world, `${holder.id}/confirm`, {});
  holder.confirmed = true;
  note(world, { client: holder.id, kind: "confirmed" });
  world.count("confirmations");
  touchAll(world, holder.id);
};

/** Two names turn out to be one woman; half the time somebody takes it back weeks later. */
export const joinTwo = async (world: World, woman: Woman): Promise<void> => {
  const { log } = world;
  const [into, other] = holdersOf(world, woman);
  if (!into || !other || into.id === other.id || into.joined !== null || other.joined !== null) return;
  await decide(world, `${into.id}/join`, { with: other.id });
  into.confirmed = true;
  other.joined = into.id;
  log.sortAnew();
  note(world, { client: into.id, kind: "joined", other: other.id });
  world.count("joins");
  touchAll(world, into.id);
  if (world.dice.chance(0.6))
    world.later(world.now + world.dice.between(10, 45) * DAY, () => splitAgain(world, into, other));
};

const splitAgain = async (world: World, into: Holder, other: Holder): Promise<void> => {
  const { log } = world;
  if (!isClient(into) || !isClient(other) || other.joined !== into.id) return;
  const hers = log.bookingsOf(into.id).filter(({ under }) => under === other.id);
  if (hers.length === 0) return;
  const uids = new Set<string | null>(hers.map(({ uid }) => uid));
  const answer = await decide(world, `${into.id}/split`, { bookings: [...uids] }, 201);
  const { id } = await answer.json<{ id: string }>();
  if (id !== other.id) world.fault(`split again, ${other.id} is ${id}`);
  for (const row of [...log.recordsOf(into.id), ...log.screeningsOf(into.id)])
    if (uids.has(row.booking)) row.taken = other.id;
  other.joined = null;
  log.sortAnew();
  log.shareConsent(into.id, other.id);
  note(world, { client: into.id, kind: "split", other: other.id, bookings: hers.map(({ uid }) => uid) });
  world.count("splits");
  touchAll(world, into.id, other.id);
};

/** Two women under one bare name are told apart: some bookings are the other's. Neither comes again. */
export const splitBare = async (world: World, women: readonly Woman[]): Promise<void> => {
  const { log } = world;
  const [holder] = women[0] ? holdersOf(world, women[0]) : [];
  if (!holder) return;
  const bookings = log.bookingsOf(holder.id);
  const chosen = bookings.filter((_, at) => at % 2 === 1);
  if (chosen.length === 0) return;
  const uids = new Set<string | null>(chosen.map(({ uid }) => uid));
  const answer = await decide(world, `${holder.id}/split`, { bookings: [...uids] }, 201);
  const { id } = await answer.json<{ id: string }>();
  if (log.holders.has(id)) world.fault(`a split of a bare name gave ${id}, who is known`);
  log.holders.set(id, { ...holder, id, confirmed: true, since: world.now });
  for (const row of [...log.recordsOf(holder.id), ...log.screeningsOf(holder.id)])
    if (uids.has(row.booking)) row.taken = id;
  for (const booking of chosen) booking.under = id;
  log.sortAnew();
  log.shareConsent(holder.id, id);
  note(world, { client: holder.id, kind: "split", other: id, bookings: chosen.map(({ uid }) => uid) });
  for (const woman of women) woman.retired = true;
  world.count("splits");
  touchAll(world, holder.id, id);
};

/** What she asks about her data; sometimes her consent is taken back. */
export const request = async (world: World, woman: Woman): Promise<void> => {
  const [holder] = holdersOf(world, woman);
  if (!holder) return;
  const person = world.log.person(holder.id);
  catchUp(world.log, world.now);
  if (world.dice.chance(0.5)) return withdraw(world, person);
  const what = world.dice.pick(["access", "erasure", "correction"]);
  await decide(world, `${person}/requests`, { what }, 201);
  world.count("data requests");
  const exported = await world.json<{ records: { id: string }[] }>(`/clients/${person}/export`);
  const [told, kept] = [exported.records.map(({ id }) => id), world.log.recordsOf(person).map(({ id }) => id)];
  if (told.toSorted().join() !== kept.toSorted().join())
    world.fault(`the export of ${person} has ${told.join()}, not ${kept.join()}`);
};

interface Erased {
  readonly erased: boolean;
  readonly waitsFor: readonly { readonly uid: string }[];
  readonly kept: readonly { readonly booking: string | null; readonly records: number; readonly until: string }[];
}

export const erase = async (world: World, woman: Woman): Promise<void> => {
  const { log, dice } = world;
  const [holder] = holdersOf(world, woman);
  if (!holder) return;
  const person = log.person(holder.id);
  catchUp(log, world.now);
  const evidence = dice.chance(0.35);
  woman.retired = true;
  reason = world.token("why");
  const answer = await world.ask("DELETE", `/clients/${person}${evidence ? "?evidence=erase" : ""}`, {
    by: BY,
    reason,
  });
  const ahead = aheadOf(world, person);
  const wanted = ahead.length > 0 ? 202 : 200;
  if (answer.status !== wanted)
    return world.fault(`erasing ${person}: ${answer.status}, not ${wanted}: ${await answer.text()}`);
  const said = await answer.json<Erased>();
  log.holder(person).erasing = { evidence };
  note(world, { client: person, kind: "erasing" });
  const kept = eraseFromLog(log, person, ahead, world.now);
  touchAll(world, person);
  const lines = (all: Erased["kept"]): string =>
    all
      .map((each) => JSON.stringify([each.booking, each.records, each.until]))
      .toSorted()
      .join();
  const expected = kept.map((each) => ({ ...each, until: iso(each.until) }));
  if (lines(said.kept) !== lines(expected))
    world.fault(`erasing ${person}: kept ${lines(said.kept)}, not ${lines(expected)}`);
  const [waits, entries] = [said.waitsFor.map(({ uid }) => uid), ahead.map(({ uid }) => uid)];
  if (waits.toSorted().join() !== entries.toSorted().join())
    world.fault(`erasing ${person}: waits for ${waits.join()}, not ${entries.join()}`);
  world.count(wanted === 202 ? "erasures that waited" : "erasures");
  if (evidence) world.count("erasures of the evidence too");
  await searchErased(world);
  if (wanted === 202 && dice.chance(0.5))
    world.later(world.now + dice.between(1, 3) * DAY, () => takeOut(world, person));
};

/** The diaries without her entries ahead: then the erasure is whole. */
const takeOut = async (world: World, person: string): Promise<void> => {
  const hers = new Set(aheadOf(world, person));
  // Her appointment came first: nothing is pushed, and the day's end will finish it.
  if (hers.size === 0) return;
  const chairs = new Set<string>();
  for (const { chair, entry } of world.diaries.ahead(world.now)) {
    if (!hers.has(entry)) continue;
    world.diaries.take(chair, entry.uid);
    chairs.add(chair);
    const booking = world.log.bookings.get(entry.booking ?? "");
    if (booking) booking.cancelled = world.now;
  }
  for (const chair of chairs) await world.push(chair);
  await goOnErasing(world);
  world.count("erasures finished by the diary");
  await searchErased(world);
};

/** Other settings: another version, which nothing told before may show. */
export const changeSettings = async (world: World): Promise<void> => {
  const { dice } = world;
  world.settings["contact"] = { phone: `01632 960${dice.between(100, 199)}` };
  world.settings["show"] = { clients: dice.pick(["names", "initials"]) };
  const own = {
    id: "piercing",
    text: `Have you had a new piercing since (${world.token("asked")})?`,
    yes: "test-needed",
  };
  world.settings["questions"] = dice.chance(0.5) ? null : [own];
  const put = await world.ask("PUT", "", world.settings);
  if (put.status !== 200) return world.fault(`settings: ${put.status} ${await put.text()}`);
  world.log.settings++;
  world.count("settings versions");
};
