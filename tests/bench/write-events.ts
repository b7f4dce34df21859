/**
 * What writing a thousand events costs, ours as a ratio to ical-generator alone for the same events, texts and reminders:
 * `npm run bench:write`. The library writes times in UTC and knows no RELATED-TO and no UID of a reminder, so it has less
 * to write; ours with times in UTC is measured too. Asserts that both write as many components, and no time.
 */
import { ICalAlarmType, ICalCalendar, ICalEventClass, ICalEventStatus, ICalEventTransparency } from "ical-generator";
import { clientEvents } from "../../src/feed/clientEvents.ts";
import type { EventContent, FeedZone } from "../../src/feed/types.ts";
import { writeEvent } from "../../src/feed/writeEvent.ts";
import { writeFeed } from "../../src/feed/writeFeed.ts";
import type { Plan, Step } from "../../src/plan/types.ts";
import { DAY_SECONDS, type Instant, type Seconds } from "../../src/time/instant.ts";
import { contextOf, fellOver, HEAD, homeSteps, planOf, salonSteps, setDone, STAMPS } from "../pure/feed-plans.ts";
import { london } from "../pure/feed-readers.ts";
import { cpuOf, spreadOf, spreadText } from "./measure.ts";

const EVENTS = 1_000;
const ROUNDS = Number(process.env["BENCH_ROUNDS"] ?? 31);
const WARM_UP = 10;

/** Plans as they stand in a salon on one day: under way, half done, in the salon, fallen over and cancelled. */
const KINDS: readonly Plan[] = [
  planOf("on-track", homeSteps()),
  planOf("due", setDone(homeSteps(true), "screening", "shipping", "arrival", "application")),
  planOf("on-track", salonSteps()),
  fellOver(),
  planOf("cancelled", homeSteps()),
];

const laterStep = (step: Step, by: Seconds, booking: string): Step => ({
  ...step,
  uid: step.uid.replace(/^b1/, booking),
  opens: step.opens + by,
  due: step.due + by,
  counted: step.counted && { ...step.counted, from: step.counted.from + by },
});

/** The same plan of another booking, so many days later. */
const later = (plan: Plan, days: number, booking: string): Plan => {
  const by = days * DAY_SECONDS;
  const { start, end } = plan.booking;
  return {
    ...plan,
    asOf: plan.asOf + by,
    booking: { ...plan.booking, uid: booking, start: start + by, end: end === null ? null : end + by },
    steps: plan.steps.map((step) => laterStep(step, by, booking)),
    leftBehind: plan.leftBehind.map((step) => laterStep(step, by, booking)),
  };
};

const context = contextOf();
const made: EventContent[] = [];
for (let booking = 0; made.length < EVENTS; booking++) {
  const plan = later(KINDS[booking % KINDS.length] as Plan, booking, `b${booking}`);
  made.push(...clientEvents(plan, context).slice(0, EVENTS - made.length));
}

const dateOf = (seconds: Instant): Date => new Date(seconds * 1000);

/** As somebody would who had ical-generator and these events. */
const writeAlone = (contents: readonly EventContent[]): string => {
  const calendar = new ICalCalendar({ name: HEAD.name, description: HEAD.description, url: HEAD.url });
  for (const { uid, kind, time, summary, description, url, alarms, cancelled } of contents) {
    const scale = time.allDay ? DAY_SECONDS : 1;
    calendar.createEvent({
      id: uid,
      stamp: dateOf(STAMPS.lastModified),
      created: dateOf(STAMPS.created),
      lastModified: dateOf(STAMPS.lastModified),
      sequence: STAMPS.sequence,
      start: dateOf(time.from * scale),
      end: dateOf(time.to * scale),
      allDay: time.allDay,
      summary,
      description,
      url,
      status: cancelled ? ICalEventStatus.CANCELLED : ICalEventStatus.CONFIRMED,
      transparency: ICalEventTransparency.TRANSPARENT,
      class: ICalEventClass.PRIVATE,
      categories: [{ name: kind }],
      alarms: alarms.map(({ before }) => ({ type: ICalAlarmType.display, trigger: before, description: summary })),
    });
  }
  return calendar.toString();
};

const writeOurs = (contents: readonly EventContent[], zone: FeedZone | null): string =>
  writeFeed(
    HEAD,
    zone,
    contents.map((content) => writeEvent(content, STAMPS, zone)),
  );

const count = (text: string, what: string): number => text.split(`BEGIN:${what}\r\n`).length - 1;
const [ours, alone] = [writeOurs(made, london), writeAlone(made)];
for (const what of ["VEVENT", "VALARM"]) {
  if (count(ours, what) !== count(alone, what) || count(ours, "VEVENT") !== EVENTS) {
    throw new Error(`${what}: ours ${count(ours, what)}, ical-generator alone ${count(alone, what)}`);
  }
}

const works = {
  ours: (contents: readonly EventContent[]) => writeOurs(contents, london),
  "ours in UTC": (contents: readonly EventContent[]) => writeOurs(contents, null),
  alone: writeAlone,
};
type Name = keyof typeof works;
const names = Object.keys(works) as Name[];
const taken: Record<Name, number[]> = { ours: [], "ours in UTC": [], alone: [] };
let octets = 0;
for (let round = -WARM_UP; round < ROUNDS; round++) {
  for (let turn = 0; turn < names.length; turn++) {
    const name = names[(turn + round + WARM_UP) % names.length] as Name;
    // As they come from storage: strings that nobody has looked at yet.
    const contents = structuredClone(made);
    const cost = cpuOf(() => (octets += works[name](contents).length));
    if (round >= 0) taken[name].push(cost);
  }
}

const ratio = (name: Name): string =>
  spreadText(spreadOf(taken[name].map((cost, round) => cost / (taken.alone[round] ?? NaN))), 2);
const milliseconds = (name: Name): string => spreadText(spreadOf(taken[name].map((cost) => cost / 1000)), 1);

const mean = made.reduce((sum, { description }) => sum + description.length, 0) / EVENTS;
console.log(`${EVENTS} events, ${count(ours, "VALARM")} reminders, ${mean.toFixed(0)} letters a description`);
console.log(`${Math.round(ours.length / 1000)} kB ours, ${Math.round(alone.length / 1000)} kB by ical-generator alone`);
console.log(`Node ${process.version}, CPU of ${ROUNDS} rounds; median (10th to 90th hundredth)`);
console.log(`writing: ours/ical-generator alone ${ratio("ours")}`);
console.log(`writing in UTC: ours/ical-generator alone ${ratio("ours in UTC")}`);
console.log(`ms: ours ${milliseconds("ours")}, in UTC ${milliseconds("ours in UTC")}, alone ${milliseconds("alone")}`);
if (octets === 0) throw new Error("nothing was written");
