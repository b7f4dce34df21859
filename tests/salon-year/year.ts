/**
 * A busy salon's year: about forty colours a week in five chairs, day by day, with everything that befalls them. A judge
 * compares what the service says with the log each week, and at each midnight at which something has been kept its time.
 */
import { reset } from "cloudflare:test";
import { book, goOnErasing, planChanges } from "./bookings.ts";
import { DAY, MINUTE, SalonCalendar, type Seconds, secondsOf } from "./calendar.ts";
import { changeSettings, confirmOne, erase, joinTwo, request, splitBare } from "./decisions.ts";
import { Dice } from "./Dice.ts";
import { importEarlier } from "./imports.ts";
import { judgeEvidence } from "./judge-evidence.ts";
import { judgeKept, judgePerson } from "./judge-kept.ts";
import { judgePlans } from "./judge-plans.ts";
import { searchErased } from "./judge-storage.ts";
import { catchUp, nextEnd, strikeOut } from "./keeping.ts";
import { SalonLog } from "./log.ts";
import { inventPeople, type Woman } from "./people.ts";
import { planVisit } from "./visits.ts";
import { createSalon, World } from "./world.ts";
import { setClock } from "../service/client.ts";

export interface YearChoice {
  readonly seed: number;
  readonly weeks: number;
  readonly zone: string;
  readonly retention: { readonly evidence: string; readonly rest: string };
  /** Colours a week. */
  readonly colours?: number;
}

const CHAIRS = 5;
const BEGIN = "2027-01-04T06:00:00Z";

export const runYear = async ({ seed, weeks, zone, retention, colours = 40 }: YearChoice): Promise<World> => {
  const [dice, calendar] = [new Dice(seed), new SalonCalendar(zone)];
  const begin = calendar.at(secondsOf(BEGIN), 0, 7);
  setClock(new Date(begin * 1000).toISOString());
  const settings = {
    name: "Quillfen Colour Room",
    zone,
    country: "GB",
    diaries: Array.from({ length: CHAIRS }, (_, index) => ({ name: `chair-${index + 1}` })),
    services: [{ name: "Permanent colour", words: ["root*"], product: "line A", shade: 4 }],
    tests: [
      { route: "home-kit", protocol: "home-kit-120h", onFile: { months: 12, product: "any", shade: "any" } },
      { route: "in-salon", protocol: "salon-48h", onFile: { months: 12, product: "any", shade: "any" } },
    ],
    retention,
  };
  const salon = await createSalon(settings);
  const log = new SalonLog(calendar, retention);
  const women = inventPeople(dice, CHAIRS, Math.round(colours * 5));
  const world = new World({
    dice,
    calendar,
    women,
    salon,
    settings,
    log,
    now: begin,
    end: begin + weeks * 7 * DAY,
    chairs: CHAIRS,
  });
  await importEarlier(world, [
    ...women.filter(({ kind }) => kind === "bare").slice(0, 6),
    ...women.filter(({ kind }) => kind !== "bare-shared").slice(0, 20),
  ]);
  await takeBookings(world, colours * 3);
  for (let day = 0; day < weeks * 7; day++) await liveDay(world, begin, day, colours);
  await judgeAll(world);
  return world;
};

export const endYear = reset;

const liveDay = async (world: World, begin: Seconds, day: number, colours: number): Promise<void> => {
  const { calendar, dice } = world;
  const at = (hour: number): Seconds => calendar.at(begin, day, hour, dice.between(0, 59));
  const weekday = calendar.weekday(calendar.at(begin, day, 12));
  if (weekday < 7) world.later(at(8), () => takeBookings(world, dice.between(-1, 1) + Math.round(colours / 6)));
  if (weekday < 6) decideSomething(world, at);
  await world.runTo(calendar.midnight(begin, day + 1), () => mayRestart(world));
  if (weekday === 7) await judgeWeek(world, calendar.at(begin, day, 22));
  await passMidnight(world, calendar.midnight(begin, day + 1));
};

/** New appointments: of those who have none ahead, whoever was not here for longest. */
const takeBookings = async (world: World, count: number): Promise<void> => {
  const { dice, women, now } = world;
  const free = women.filter(({ retired, last }) => !retired && (last < now || dice.chance(0.02)));
  const chosen = new Set<Woman>();
  for (let made = 0; made < count && free.length > 0; made++) {
    const few = [0, 1, 2, 3].map(() => dice.pick(free)).toSorted((one, other) => one.last - other.last);
    if (few[0]) chosen.add(few[0]);
  }
  const wanted = [...chosen].map((woman) => ({
    woman,
    days: dice.weighted([
      [dice.between(7, 30), 80],
      [dice.between(3, 6), 10],
      [dice.between(0, 2), 10],
    ]),
  }));
  for (const made of await book(world, wanted)) {
    planVisit(world, made);
    planChanges(world, made, (moved) => planVisit(world, moved));
  }
};

/** What comes up at the desk on a day, by chance. */
const decideSomething = (world: World, at: (hour: number) => Seconds): void => {
  const { dice, women } = world;
  const of = (...kinds: readonly Woman["kind"][]): Woman => dice.pick(women.filter(({ kind }) => kinds.includes(kind)));
  if (dice.chance(0.35)) world.later(at(9), () => confirmOne(world, of("bare")));
  if (dice.chance(0.2)) world.later(at(10), () => joinTwo(world, of("two-names")));
  if (dice.chance(0.3)) world.later(at(11), () => request(world, dice.pick(women)));
  if (dice.chance(0.16))
    world.later(at(14), () => erase(world, of("plain", "plain", "family", "namesake", "bare", "two-names")));
  if (dice.chance(0.03)) world.later(at(15), () => changeSettings(world));
  if (dice.chance(0.015)) {
    const one = of("bare-shared");
    world.later(at(16), () =>
      splitBare(
        world,
        women.filter(({ faces }) => faces[0] === one.faces[0]),
      ),
    );
  }
};

/** At what comes between two days the log strikes out what has had its time; the service must have it until a second before. */
const passMidnight = async (world: World, midnight: Seconds): Promise<void> => {
  const { log } = world;
  catchUp(log, midnight - 1);
  const due = log.persons().filter(({ id }) => nextEnd(log, id) <= midnight);
  world.setTime(midnight - 1);
  for (const { id } of due) await judgePerson(world, id);
  world.setTime(midnight);
  await goOnErasing(world);
  for (const { id } of due) strikeOut(log, id, midnight);
  for (const { id } of due) await judgePerson(world, id);
  world.count("ends reached", due.length);
};

const PLANS_AHEAD = (world: World): string => `/plans?from=${world.calendar.dayOf(world.now).toString()}`;

/** The order of fields says nothing. */
const byName = (_key: string, value: unknown): unknown =>
  value !== null && typeof value === "object" && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).toSorted(([one], [other]) => (one < other ? -1 : 1)))
    : value;

/** A restart changes nothing that can be seen. */
const mayRestart = async (world: World): Promise<void> => {
  await goOnErasing(world);
  if (!world.dice.chance(0.01)) return;
  const look = async (): Promise<string> => {
    const paths = [
      PLANS_AHEAD(world),
      "/clients?limit=2000",
      `/records?after=r${Math.max(1, world.log.records.size - 50)}`,
    ];
    const texts: string[] = [];
    for (const path of paths) texts.push(JSON.stringify(await world.json(path), byName));
    return texts.join("\n");
  };
  const before = await look();
  await world.restart();
  const after = await look();
  if (after === before) return;
  let at = 0;
  while (before[at] === after[at]) at++;
  world.fault(
    `a restart changed ${before.slice(Math.max(0, at - 200), at + 100)} to ${after.slice(Math.max(0, at - 20), at + 100)}`,
  );
};

const judgeWeek = async (world: World, at: Seconds): Promise<void> => {
  world.setTime(Math.max(at - (at % MINUTE), world.now));
  catchUp(world.log, world.now);
  await (await world.send(world.salon.feed)).body?.cancel();
  await judgePlans(world);
  await judgeKept(world);
  await searchErased(world);
  const older = [...world.log.bookings.keys()];
  const looked = new Set([...world.touched, ...Array.from({ length: 10 }, () => world.dice.pick(older))]);
  world.touched.clear();
  for (const uid of looked) {
    const booking = world.log.bookings.get(uid);
    if (booking) await judgeEvidence(world, booking);
  }
};

/** At the end every appointment of the year. */
const judgeAll = async (world: World): Promise<void> => {
  await judgePlans(world);
  await judgeKept(world);
  await searchErased(world);
  for (const booking of world.log.bookings.values()) await judgeEvidence(world, booking);
};
