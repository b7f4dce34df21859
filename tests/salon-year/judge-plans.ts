/** Every plan against the log's own view of who is who: no result of another person counts, and none unconfirmed. */
import { iso } from "./calendar.ts";
import type { LogBooking, LogRecord } from "./log.ts";
import type { World } from "./world.ts";

interface PlanSeen {
  readonly booking: {
    readonly uid: string;
    readonly start: string;
    readonly diary: string;
    readonly client: { readonly id: string; readonly name: string };
  };
  readonly route: string | null;
  readonly standing: string;
}

/** Whether some records hold a test that was looked at and found clear. */
const isClear = (records: readonly LogRecord[]): boolean => {
  const reads = records.filter(({ kind }) => kind === "read");
  const newest = reads.toSorted((one, other) => one.at - other.at).at(-1);
  const isTest = records.some(({ kind }) => kind === "applied") || reads.some(({ route }) => route !== null);
  return isTest && newest?.outcome === "clear";
};

/** Why a plan may rest on an earlier test of hers; undefined: nothing lets it. */
const groundOf = (world: World, booking: LogBooking): "recorded" | "ahead" | undefined => {
  const { log, now } = world;
  const person = log.ownerOfBooking(booking);
  // A mere name proves nothing until a person has said so.
  if (!log.holder(person).confirmed) return undefined;
  const others = log.standing(person).filter((each) => each.booking !== booking.uid);
  if ([...Map.groupBy(others, (each) => each.booking ?? each.id).values()].some(isClear)) return "recorded";
  const isAhead = log
    .bookingsOf(person)
    .some((each) => each.cancelled === null && each.start < booking.start && each.start >= now);
  return isAhead ? "ahead" : undefined;
};

export const judgePlans = async (world: World): Promise<void> => {
  const { log } = world;
  const plans: PlanSeen[] = [];
  for (let after = ""; ; ) {
    const page = await world.json<{ plans: PlanSeen[]; next: string | null }>(`/plans?limit=2000${after}`);
    plans.push(...page.plans);
    if (page.next === null) break;
    after = `&after=${encodeURIComponent(page.next)}`;
  }
  const wanted = [...log.bookings.values()].filter(
    (each) => !each.gone && log.holder(log.ownerOfBooking(each)).erased === null,
  );
  const seen = new Map(plans.map((plan) => [plan.booking.uid, plan]));
  for (const { uid } of wanted) if (!seen.has(uid)) world.fault(`${uid} has no plan`);
  if (plans.length !== wanted.length) world.fault(`${plans.length} plans, not ${wanted.length}`);
  for (const { booking, route, standing } of plans) {
    const known = log.bookings.get(booking.uid);
    if (!known || known.gone) {
      world.fault(`a plan of ${booking.uid}, which is not known`);
      continue;
    }
    const person = log.ownerOfBooking(known);
    const fault = (text: string): void =>
      world.fault(`plan of ${booking.uid} (${booking.client.name}, ${person}): ${text}`);
    if (booking.client.id !== person) fault(`it is given to ${booking.client.id}`);
    if (booking.start !== iso(known.start) || booking.diary !== known.chair)
      fault(`it is ${booking.start} in ${booking.diary}`);
    if ((standing === "cancelled") !== (known.cancelled !== null)) fault(`it stands ${standing}`);
    world.count("plans judged");
    if (standing === "past" || standing === "cancelled") continue;
    const ground = groundOf(world, known);
    if (route === "on-file") world.count("plans on file justified");
    if (route === "on-file" && ground === undefined)
      fault("it rests on a test that is not hers, or that nobody confirmed");
    if (standing === "ready") checkReady(world, known, route === "on-file", ground === "recorded", fault);
  }
};

const checkReady = (
  world: World,
  { uid }: LogBooking,
  isOnFile: boolean,
  hasEarlier: boolean,
  fault: (text: string) => void,
): void => {
  const person = world.log.ownerOfBooking(world.log.bookings.get(uid) as LogBooking);
  const all = world.log.standing(person);
  const own = all.filter(({ booking }) => booking === uid);
  world.count("ready plans justified");
  if (!own.some(({ kind, outcome }) => kind === "screened" && outcome !== "do-not-colour"))
    fault("ready without a screening of hers");
  if (!own.some(({ kind, via }) => kind === "confirmed" && via !== "client-link"))
    fault("ready without a person's word");
  if (
    all.some(({ kind, outcome, reason }) => kind === "reacted" || outcome === "reaction" || reason === "past-reaction")
  )
    fault("ready beside a reaction of hers");
  if (!(isOnFile ? hasEarlier : isClear(own))) fault("ready without a clear test of hers");
};
