/**
 * The states of a booking that the table of records stands on: each with what has been told so far and the moment at which
 * one record more is kept. Written down by hand; no standing is reckoned here.
 */
import { HOUR, type Instant, parseInstant } from "../../time/instant.ts";
import type { Fact, TestRoute } from "../types.ts";
import type { TableStanding } from "./cell.ts";

/** A record with only what matters said; `booking` left out is the booking itself. */
export type GivenRecord = Partial<Fact> & Pick<Fact, "kind" | "at">;

export interface TableState {
  readonly says: string;
  /** When the next record is kept. */
  readonly now: Instant;
  readonly given: readonly GivenRecord[];
  /** The standing before it. */
  readonly standing: TableStanding;
  /** Which test a further `applied` names. */
  readonly route: TestRoute;
  /** When the test that is on has been worn long enough; null where none with a wear is on. */
  readonly wornAt: Instant | null;
  /** When its next look is made in time, and a moment that is too soon for it; null where none is on. */
  readonly look: { readonly inTime: Instant; readonly tooSoon: Instant } | null;
  readonly cancelled: boolean;
}

/** `12-09 10:30` of 2026, UTC. */
export const on = (text: string): Instant => parseInstant(`2026-${text.replace(" ", "T")}:00Z`) as Instant;

/** The salon of the table: a kit first, a walk-in second, open Monday to Saturday; all else by default. */
export const TABLE_SALON = {
  name: "The salon of the table",
  zone: "Etc/UTC",
  tests: [
    { route: "home-kit", protocol: "home-kit-120h" },
    { route: "in-salon", protocol: "salon-48h" },
  ],
  opening: Object.fromEntries(["mon", "tue", "wed", "thu", "fri", "sat"].map((day) => [day, ["09:00-17:30"]])),
};
/** The colour: Friday 11 December 2026, 10:30. */
export const TABLE_COLOUR = on("12-11 10:30");
const EARLIER_BOOKING = "booking-0";
/** The record that "correction of the stop" names. */
export const STOP_ID = "stop";
/** The last second at which a test of a route counts for the colour (home-kit-120h, salon-48h). */
export const lastApplied = (route: TestRoute): Instant => TABLE_COLOUR - (route === "home-kit" ? 120 : 48) * HOUR;

const given = (kind: Fact["kind"], at: string, more: Partial<Fact> = {}): GivenRecord => ({
  kind,
  at: on(at),
  ...more,
});
const screened = (at: string, more: Partial<Fact> = {}) => given("screened", at, { outcome: "pass", ...more });
const forbidden = (reason: string, more: Partial<Fact> = {}) =>
  screened("11-30 10:00", { id: STOP_ID, outcome: "do-not-colour", reason, ...more });
const read = (at: string, more: Partial<Fact> = {}) => given("read", at, { outcome: "clear", ...more });
const elsewhere = { booking: EARLIER_BOOKING };

const passed = screened("11-30 10:00");
const kitSent = [passed, given("posted", "12-01 12:00")];
const kitThere = [...kitSent, given("arrived", "12-04 18:00")];
const kitOn = [...kitThere, given("applied", "12-05 10:00", { route: "home-kit" })];
const kitOff = [...kitOn, given("removed", "12-07 10:00")];
const oneLook = [...kitOff, read("12-07 10:40")];
const bothLooks = [...oneLook, read("12-09 10:10")];
const confirmed = [...bothLooks, given("confirmed", "12-09 11:00")];
const reaction = read("12-07 10:40", { id: STOP_ID, outcome: "reaction" });
const walkInOn = [screened("12-08 09:50"), given("applied", "12-08 10:00", { route: "in-salon" })];
const onFile = [
  given("applied", "10-05 10:00", { ...elsewhere, route: "home-kit" }),
  read("10-07 10:30", elsewhere),
  read("10-09 10:00", elsewhere),
];

const state = (
  standing: TableStanding,
  now: string,
  says: string,
  told: readonly GivenRecord[],
  more: Partial<TableState> = {},
): TableState => ({
  says,
  now: on(now),
  given: told,
  standing,
  route: "in-salon",
  wornAt: null,
  look: null,
  cancelled: false,
  ...more,
});
const look = (inTime: string, tooSoon: string) => ({ inTime: on(inTime), tooSoon: on(tooSoon) });
const kitWorn = on("12-07 10:00");
const firstLook = { wornAt: kitWorn, look: look("12-07 10:30", "12-07 10:29") };
/** All looks have opened: one more is made at the state's moment. */
const looking = (now: string) => ({ wornAt: kitWorn, look: look(now, "12-07 10:29") });

/** Every state, by its name. */
export const STATES = {
  "nothing-recorded": state("on-track", "11-16 10:00", "nothing is told, and nothing has opened", []),
  "questions-open": state("due", "11-30 10:00", "nothing is told, and the health questions are open", []),
  "questions-late": state("late", "12-02 10:00", "nothing is told, the questions are late and a kit still fits", []),
  passed: state("on-track", "11-30 11:00", "the questions are passed", [passed]),
  posted: state("on-track", "12-01 13:00", "the kit is posted", kitSent, { route: "home-kit" }),
  arrived: state("due", "12-04 19:00", "the kit has come", kitThere, { route: "home-kit" }),
  "test-on": state("on-track", "12-05 11:00", "the kit's test is on", kitOn, firstLook),
  "test-off": state("on-track", "12-07 10:10", "it was taken off when it should be", kitOff, firstLook),
  "one-look-left": state("on-track", "12-07 11:00", "the first of its two looks is clear", oneLook, {
    wornAt: kitWorn,
    look: look("12-09 10:00", "12-09 09:59"),
  }),
  "looks-clear": state("on-track", "12-09 11:00", "both looks are clear", bothLooks, looking("12-09 11:00")),
  ready: state("ready", "12-09 12:00", "the salon has confirmed since", confirmed, looking("12-09 12:00")),
  "walk-in-on": state("on-track", "12-08 11:00", "a test put on at the salon is on, and stays on", walkInOn, {
    look: look("12-10 10:00", "12-10 09:59"),
  }),
  "asked-anew": state(
    "on-track",
    "12-09 12:00",
    "both looks are clear and the salon has confirmed, but the questions asked for a new test after the last look",
    [...bothLooks, screened("12-09 10:20", { outcome: "test-needed" }), given("confirmed", "12-09 11:00")],
    looking("12-09 12:00"),
  ),
  "reaction-corrected": state(
    "due",
    "12-07 11:10",
    "a reaction told at the first look has been corrected",
    [...kitOff, reaction, given("correction", "12-07 11:00", { corrects: STOP_ID, reason: "a mark of the pen" })],
    looking("12-07 11:10"),
  ),
  covered: state("due", "11-30 10:00", "a clear result of October covers, and nothing is told since", onFile),
  "covered-ready": state("ready", "11-30 11:00", "the same, passed and confirmed", [
    ...onFile,
    passed,
    given("confirmed", "11-30 10:05"),
  ]),
  "stop-reaction": state(
    "stop",
    "12-07 11:00",
    "the first look was a reaction",
    [...kitOff, reaction],
    looking("12-07 11:00"),
  ),
  "stop-past-reaction": state("stop", "11-30 11:00", "the questions told of a past reaction", [
    forbidden("past-reaction"),
  ]),
  "stop-under-16": state("stop", "11-30 11:00", "the questions told that the client is under 16", [
    forbidden("under-16"),
  ]),
  "stop-do-not-colour": state("stop", "11-30 11:00", "the questions said do not colour, on another ground", [
    forbidden("other"),
  ]),
  "stop-not-sure": state(
    "stop",
    "12-07 11:00",
    "the first look was not sure",
    [...kitOff, { ...reaction, outcome: "not-sure" }],
    looking("12-07 11:00"),
  ),
  "reaction-elsewhere": state("stop", "11-30 11:00", "passed, but an earlier booking has a reaction", [
    given("reacted", "11-01 09:00", { ...elsewhere, id: STOP_ID }),
    passed,
  ]),
  "past-reaction-elsewhere": state("stop", "11-30 11:00", "passed, but an earlier booking's questions told of one", [
    forbidden("past-reaction", { ...elsewhere, at: on("11-01 09:00") }),
    passed,
  ]),
  "not-sure-elsewhere": state("stop", "11-30 11:00", "passed, but an earlier booking has a look not sure", [
    read("11-01 09:00", { ...elsewhere, id: STOP_ID, outcome: "not-sure" }),
    passed,
  ]),
  "under-16-elsewhere": state("on-track", "11-30 11:00", "passed; an earlier booking's questions told of under 16", [
    forbidden("under-16", { ...elsewhere, at: on("11-01 09:00") }),
    passed,
  ]),
  silent: state("late", "12-09 12:00", "nothing is told, and the last route lapsed less than a day ago", []),
  "no-time": state("no-time", "12-11 09:00", "nothing is told, and the grace is over", []),
  "applied-too-late": state("no-time", "12-09 12:00", "passed, and a walk-in's test went on an hour too late", [
    screened("12-09 11:00"),
    given("applied", "12-09 11:30", { route: "in-salon" }),
  ]),
  "past-ready": state(
    "past-ready",
    "12-11 12:00",
    "the start has passed, and it was ready",
    confirmed,
    looking("12-11 12:00"),
  ),
  "past-not-ready": state("past-not-ready", "12-11 12:00", "the start has passed, and no look was told", walkInOn, {
    look: look("12-10 10:00", "12-10 09:59"),
  }),
  "past-stopped": state(
    "past-stop",
    "12-11 12:00",
    "the start has passed, it was ready, and a reaction is told since",
    [...confirmed, given("reacted", "12-11 11:30", { id: STOP_ID })],
    looking("12-11 12:00"),
  ),
  cancelled: state("cancelled", "12-05 11:00", "cancelled while the kit's test is on", kitOn, {
    ...firstLook,
    cancelled: true,
  }),
} as const satisfies Record<string, TableState>;
export type StateName = keyof typeof STATES;
