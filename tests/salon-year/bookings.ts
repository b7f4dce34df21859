/** Appointments are made, moved, taken to another chair, cancelled; each change goes out with its diary and into the log. */
import { DAY, MINUTE, type Seconds } from "./calendar.ts";
import type { Entry } from "./diaries.ts";
import { eraseFromLog } from "./erasing.ts";
import type { Holder, LogBooking } from "./log.ts";
import type { Face, Woman } from "./people.ts";
import type { World } from "./world.ts";

export interface Made {
  readonly booking: LogBooking;
  readonly woman: Woman;
  readonly face: Face;
}

/** A free half-hour of a working day, days from now; undefined: none. */
export const freeSlot = (world: World, chair: string, face: Face, days: number): Seconds | undefined => {
  for (let tried = 0; tried < 20; tried++) {
    const start = world.calendar.at(
      world.now,
      days + (tried >> 2),
      world.dice.between(9, 17),
      world.dice.pick([0, 30]),
    );
    const isWorking = ![1, 7].includes(world.calendar.weekday(start));
    const hers = [...world.log.bookings.values()].filter(
      ({ under }) => world.log.holders.get(under)?.face.name === face.name,
    );
    const isNear = hers.some((each) => Math.abs(each.start - start) < 2 * DAY);
    if (isWorking && start > world.now && !isNear && world.diaries.isFree(chair, start)) return start;
  }
  return undefined;
};

/** Learns the number of a client whom a reading or a table has brought. */
export const learnHolder = async (world: World, face: Face): Promise<Holder> => {
  const { log } = world;
  const known = log.known(face);
  if (known) return known;
  const { clients } = await world.json<{ clients: { id: string; name: string; email: string | null }[] }>(
    `/clients?q=${encodeURIComponent(face.name)}`,
  );
  const found = clients.filter(
    ({ id, name, email }) => name === face.name && email === face.email && !log.holders.has(id),
  );
  if (found.length !== 1) world.fault(`${found.length} new clients of a new face: ${JSON.stringify(face)}`);
  const { email, phone } = face;
  const id = found[0]?.id ?? `missing-${log.holders.size}`;
  const confirmed = email !== null || phone !== null;
  const holder: Holder = {
    id,
    face,
    email,
    phone,
    confirmed,
    joined: null,
    since: world.now,
    erasing: null,
    erased: null,
    gone: false,
  };
  log.holders.set(id, holder);
  log.current.set(face, id);
  return holder;
};

let serial = 0;

/** Makes appointments and pushes the diaries they are in. */
export const book = async (
  world: World,
  wanted: readonly { woman: Woman; days: number }[],
): Promise<readonly Made[]> => {
  const made: Made[] = [];
  const entries: { readonly chair: string; readonly entry: Entry }[] = [];
  for (const { woman, days } of wanted) {
    const face = world.dice.pick(woman.faces);
    const chair = world.dice.chance(0.9) ? `chair-${woman.chair}` : world.dice.pick(world.diaries.names);
    const isNamed = made.some((each) => each.face.name === face.name);
    const start = isNamed ? undefined : freeSlot(world, chair, face, days);
    if (start === undefined) continue;
    const uid = `${world.calendar.zone.slice(-4)}-${++serial}`;
    const entry: Entry = { uid, start, face, kind: "colour", booking: uid };
    world.diaries.put(chair, entry);
    entries.push({ chair, entry });
    woman.last = start;
    made.push({ woman, face, booking: { uid, under: "", start, chair, cancelled: null, gone: false } });
    if (!face.isShared && world.dice.chance(0.06)) {
      const other = freeSlot(world, chair, face, days + 3);
      const kind = world.dice.pick(["cut", "test"] as const);
      if (other !== undefined)
        world.diaries.put(chair, { uid: `${uid}-${kind}`, start: other, face, kind, booking: null });
    }
  }
  for (const chair of new Set(entries.map((each) => each.chair))) await world.push(chair);
  if (entries.length > 0) await goOnErasing(world);
  for (const { booking, face } of made) {
    booking.under = (await learnHolder(world, face)).id;
    world.log.addBooking(booking);
    world.count("bookings");
  }
  return made;
};

/** Takes an appointment out of its diary. */
export const cancel = async (world: World, booking: LogBooking): Promise<void> => {
  const entry = world.diaries.of(booking.chair, booking.uid);
  if (!entry) return;
  world.diaries.take(booking.chair, entry.uid);
  await world.push(booking.chair);
  booking.cancelled = world.now;
  world.count("cancellations");
  await changed(world, booking);
};

/** The same appointment at another time, under its own UID or, as many exports have it, deleted and made anew. */
export const move = async (world: World, { booking, face }: Made): Promise<boolean> => {
  const entry = world.diaries.of(booking.chair, booking.uid);
  const start = freeSlot(world, booking.chair, face, world.dice.between(3, 20));
  if (!entry || start === undefined) return false;
  world.diaries.take(booking.chair, entry.uid);
  const isAnew = !face.isShared && world.dice.chance(0.4);
  world.diaries.put(booking.chair, { ...entry, start, uid: isAnew ? `${entry.uid}n` : entry.uid });
  await world.push(booking.chair);
  booking.start = start;
  world.count(isAnew ? "moves under a new UID" : "moves");
  await changed(world, booking);
  return true;
};

/** To another chair: the entry leaves one diary for another, which is read first or second. */
export const changeChairs = async (world: World, booking: LogBooking): Promise<void> => {
  const from = booking.chair;
  const to = world.dice.pick(world.diaries.names.filter((name) => name !== from));
  const entry = world.diaries.of(from, booking.uid);
  if (!entry || entry.uid !== booking.uid || !world.diaries.isFree(to, entry.start)) return;
  world.diaries.take(from, entry.uid);
  world.diaries.put(to, entry);
  const isNewFirst = world.dice.chance(0.5);
  for (const chair of isNewFirst ? [to, from] : [from, to]) await world.push(chair);
  booking.chair = to;
  // For a moment it stood in both: the second is withdrawn, and known as what was cancelled.
  if (isNewFirst) {
    const { under, start } = booking;
    world.log.addBooking({ uid: `${to}/${booking.uid}`, under, start, chair: to, cancelled: world.now, gone: false });
  }
  world.count("changes of chairs");
  await changed(world, booking);
};

const changed = async (world: World, { uid }: LogBooking): Promise<void> => {
  world.touched.add(uid);
  await goOnErasing(world);
};

/** Entries that name a person from now on. */
export const aheadOf = ({ log, diaries, now }: World, person: string): readonly Entry[] => {
  const faces = new Set(log.rowsOf(person).map(({ face }) => face));
  return diaries.ahead(now).flatMap(({ entry }) => {
    const booking = entry.booking === null ? undefined : log.bookings.get(entry.booking);
    const isHers = booking ? log.ownerOfBooking(booking) === person : entry.booking === null && faces.has(entry.face);
    return isHers ? [entry] : [];
  });
};

/** Erasures that wait go on with each reading, each day, and as soon as what they wait for has begun. */
export const goOnErasing = async (world: World): Promise<void> => {
  for (const { id, erasing, erased } of world.log.persons()) {
    if (erasing && erased === null) eraseFromLog(world.log, id, aheadOf(world, id), world.now);
  }
};

/** What may befall an appointment between its making and its day. */
export const planChanges = (world: World, made: Made, visit: (made: Made) => void): void => {
  const { booking } = made;
  const { dice } = world;
  const room = booking.start - world.now - 2 * DAY;
  if (room < DAY) return;
  const when = world.now + DAY + Math.floor((dice.roll() * room) / MINUTE) * MINUTE;
  const { start } = booking;
  const isStill = (): boolean => booking.cancelled === null && !booking.gone && booking.start === start;
  const run = dice.weighted<() => Promise<void>>([
    [async () => {}, 82],
    [() => cancel(world, booking), 6],
    [
      async () => {
        if (await move(world, made)) visit(made);
      },
      8,
    ],
    [() => changeChairs(world, booking), 4],
  ]);
  world.later(when, async () => (isStill() ? run() : undefined));
};
