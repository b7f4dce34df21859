/**
 * Reckoned by hand from counting.md before the service was asked: closings, holidays, nights, short days, changes of the
 * clocks, silence. Times are UTC; `by` says how each was come by. Public holidays: gov.uk/bank-holidays (England and
 * Scotland, 2026 and 2027). Changes of the clocks: IANA database.
 */
import { daily, type HandCase, KIT, OCTOBER, type StepRow, WALK_IN } from "./handCase.ts";

/** Christmas 2026: a kit for Saturday 9 January by a carrier that counts three days of the calendar. */
const christmasIn = (region: string) => ({
  zone: "Europe/London",
  start: "2027-01-09T12:00",
  now: "2026-12-20T10:00:00Z",
  settings: {
    country: "GB",
    holidays: { country: "GB", region },
    tests: KIT,
    opening: daily("mon tue wed thu fri sat", "09:00-17:00"),
    post: { transit: 3, count: "calendar" },
  },
});
const CHRISTMAS_AFTERWARDS: readonly StepRow[] = [
  ["application", "2027-01-04 08:00", "2027-01-04 12:00"],
  ["removal", "2027-01-06 12:00", "2027-01-06 15:00"],
  ["reading 1", "2027-01-06 12:30", "2027-01-06 15:30"],
  ["reading 2", "2027-01-08 12:00", "2027-01-08 15:00"],
  ["result", "2027-01-08 12:00", "2027-01-08 17:00"],
];

/** Tuesday to Saturday; a colour on Wednesday 18 November whose walk-in would have been on Saturday. */
const CLOSED_MONDAY = {
  zone: "Europe/London",
  start: "2026-11-18T15:00",
  settings: { tests: WALK_IN, opening: daily("tue wed thu fri sat", "09:00-17:00") },
};

export const CALENDAR_CASES: readonly HandCase[] = [
  {
    name: "a colour on the first day after eleven days of closing",
    by: "A is Sat 2 Jan 10:00, shut since the 24th: last walk-in Wed 23 Dec 17:00 less 30 minutes. Its look, 48 h on, is Christmas Day 16:30; no closing lies between that and B, so the result is due at B.",
    ask: {
      zone: "Europe/London",
      start: "2027-01-04T10:00",
      now: "2026-12-09T16:29:59Z",
      settings: {
        tests: WALK_IN,
        opening: daily("mon tue wed thu fri sat", "09:00-17:00"),
        closed: ["2026-12-24/2027-01-03"],
      },
    },
    route: "in-salon",
    standing: "on-track",
    routes: [["in-salon", true, "2026-12-23 16:30"]],
    steps: [
      ["screening", "2026-12-09 16:30", "2026-12-23 16:30"],
      ["application", "2026-12-23 09:00", "2026-12-23 16:30"],
      ["reading 1", "2026-12-25 16:30", "2026-12-25 19:30"],
      ["result", "2026-12-25 16:30", "2027-01-04 10:00"],
    ],
  },
  {
    name: "a kit over Christmas in England by days of the calendar",
    by: "On by Mon 4 Jan 12:00, opening 08:00: in hand Sat 2 Jan 18:00. From Thu 31 Dec three days are Sunday, so Monday: too late. From Wed 30 Dec they are that Saturday.",
    ask: christmasIn("ENG"),
    route: "home-kit",
    standing: "due",
    routes: [["home-kit", true, "2026-12-30 16:30"]],
    steps: [
      ["screening", "2026-12-15 16:30", "2026-12-29 16:30"],
      ["shipping", "2026-12-30 09:00", "2026-12-30 16:30"],
      ["arrival", "2027-01-02 00:00", "2027-01-02 18:00"],
      ...CHRISTMAS_AFTERWARDS,
    ],
  },
  {
    name: "the same kit in Scotland, where 2 January and Monday 4 January are holidays too",
    by: "In hand Thu 31 Dec. From Tue 29 Dec three days are New Year's Day, then the 2nd, Sunday, the 4th: Tuesday, too late. Mon 28 Dec collects nothing (substitute). From Thu 24 Dec they are Sunday, then the 28th: Tue 29 Dec.",
    ask: christmasIn("SCT"),
    route: "home-kit",
    standing: "due",
    routes: [["home-kit", true, "2026-12-24 16:30"]],
    steps: [
      ["screening", "2026-12-09 16:30", "2026-12-23 16:30"],
      ["shipping", "2026-12-24 09:00", "2026-12-24 16:30"],
      ["arrival", "2026-12-31 00:00", "2026-12-31 18:00"],
      ...CHRISTMAS_AFTERWARDS,
    ],
  },
  {
    name: "a salon of two nights, 20:00 to 02:00",
    by: "A is Thu 21 Jan 21:00: last walk-in Sun 17 Jan 01:30, 30 minutes before Saturday night ends; it opens with that local day. Look Tue 19 Jan 01:30, in the client's hours from 08:00. Friday night ends Sat 02:00, but Saturday opens again: no closing before B.",
    ask: {
      zone: "Europe/London",
      start: "2027-01-23T21:00",
      now: "2027-01-02T12:00:00Z",
      settings: {
        tests: WALK_IN,
        opening: { fri: ["20:00-24:00"], sat: ["00:00-02:00", "20:00-24:00"], sun: ["00:00-02:00"] },
      },
    },
    route: "in-salon",
    standing: "on-track",
    routes: [["in-salon", true, "2027-01-17 01:30"]],
    steps: [
      ["screening", "2027-01-03 01:30", "2027-01-17 01:30"],
      ["application", "2027-01-17 00:00", "2027-01-17 01:30"],
      ["reading 1", "2027-01-19 01:30", "2027-01-19 11:00"],
      ["result", "2027-01-19 01:30", "2027-01-23 21:00"],
    ],
  },
  {
    name: "a last walk-in longer than Tuesday's one hour",
    by: "A is Tue 10 Nov 12:00, but that day has no moment from 09:15 to 10:00 less 2 h. Before it: Thu 5 Nov 17:00 less 2 h.",
    ask: {
      zone: "Europe/London",
      start: "2026-11-12T12:00",
      now: "2026-11-05T15:00:00Z",
      settings: {
        tests: WALK_IN,
        opening: { tue: ["09:00-10:00"], ...daily("wed thu", "09:00-17:00") },
        lastWalkIn: "PT2H",
      },
    },
    route: "in-salon",
    standing: "due",
    routes: [["in-salon", true, "2026-11-05 15:00"]],
    steps: [
      ["screening", "2026-10-22 15:00", "2026-11-05 15:00"],
      ["application", "2026-11-05 09:00", "2026-11-05 15:00"],
      ["reading 1", "2026-11-07 15:00", "2026-11-07 18:00"],
      ["result", "2026-11-07 15:00", "2026-11-11 17:00"],
    ],
  },
  {
    name: "two half days, and a lead that ends ten minutes after one begins",
    by: "A is Wed 11 Nov 09:10, before 09:15: Sat 7 Nov 12:00 less 30 minutes. Look Mon 9 Nov 11:30; the last closing before B is Wednesday's noon.",
    ask: {
      zone: "Europe/London",
      start: "2026-11-13T09:10",
      now: "2026-11-01T09:00:00Z",
      settings: { tests: WALK_IN, opening: daily("wed sat", "09:00-12:00") },
    },
    route: "in-salon",
    standing: "due",
    routes: [["in-salon", true, "2026-11-07 11:30"]],
    steps: [
      ["screening", "2026-10-24 11:30", "2026-11-07 11:30"],
      ["application", "2026-11-07 09:00", "2026-11-07 11:30"],
      ["reading 1", "2026-11-09 11:30", "2026-11-09 14:30"],
      ["result", "2026-11-09 11:30", "2026-11-11 12:00"],
    ],
  },
  {
    name: "a client who can act from 22:00 to midnight",
    by: "A is Mon 16 Nov 12:00: on by Sunday's end. In hand Sat 14 Nov 18:00, third delivery day from Wed 11 Nov. Asked 24 h before and back into her hours: Monday's end. Looks 00:30 and 00:00 wait for 22:00 and end at 24:00; Thursday's last second has no 15 minutes left.",
    ask: {
      zone: "Europe/London",
      start: "2026-11-21T12:00",
      now: "2026-10-26T23:59:59Z",
      settings: { tests: KIT, clientHours: "22:00-24:00" },
    },
    route: "home-kit",
    standing: "on-track",
    routes: [["home-kit", true, "2026-11-11 16:30"]],
    steps: [
      ["screening", "2026-10-27 00:00", "2026-11-10 00:00"],
      ["shipping", "2026-11-11 00:00", "2026-11-11 16:30"],
      ["arrival", "2026-11-14 00:00", "2026-11-14 18:00"],
      ["application", "2026-11-15 22:00", "2026-11-16 00:00"],
      ["removal", "2026-11-18 00:00", "2026-11-18 03:00"],
      ["reading 1", "2026-11-18 00:30", "2026-11-19 00:00"],
      ["reading 2", "2026-11-20 00:00", "2026-11-21 00:00"],
      ["result", "2026-11-20 00:00", "2026-11-21 12:00"],
    ],
  },
  {
    name: "New York's spring change inside the lead",
    by: "B is Mon 15 Mar 10:00 EDT, 14:00 UTC; 48 h before is Sat 13 Mar 09:00 EST, an hour earlier by the clock. The look opens, and all is due, at B.",
    ask: {
      zone: "America/New_York",
      start: "2027-03-15T10:00",
      now: "2027-02-27T14:00:00Z",
      settings: { tests: WALK_IN, opening: { mon: ["09:00-18:00"], sat: ["08:00-12:00"] } },
    },
    route: "in-salon",
    standing: "due",
    routes: [["in-salon", true, "2027-03-13 14:00"]],
    steps: [
      ["screening", "2027-02-27 14:00", "2027-03-13 14:00"],
      ["application", "2027-03-13 13:00", "2027-03-13 14:00"],
      ["reading 1", "2027-03-15 14:00", "2027-03-15 14:00"],
      ["result", "2027-03-15 14:00", "2027-03-15 14:00"],
    ],
  },
  {
    name: "Lord Howe's half hour, which takes Saturday away",
    by: "B is Mon 5 Oct 09:40 at +11:00; 48 h before is Sat 3 Oct 09:10 at +10:30, before 09:15. Fri 2 Oct 16:30 at +10:30 is 06:00 UTC. Look Sun 17:00 at +11:00, due 20:00; Saturday's closing is before it.",
    ask: {
      zone: "Australia/Lord_Howe",
      start: "2026-10-05T09:40",
      now: "2026-09-18T05:59:59Z",
      settings: { tests: WALK_IN, opening: { ...daily("mon fri", "09:00-17:00"), sat: ["09:00-13:00"] } },
    },
    route: "in-salon",
    standing: "on-track",
    routes: [["in-salon", true, "2026-10-02 06:00"]],
    steps: [
      ["screening", "2026-09-18 06:00", "2026-10-02 06:00"],
      ["application", "2026-10-01 22:30", "2026-10-02 06:00"],
      ["reading 1", "2026-10-04 06:00", "2026-10-04 09:00"],
      ["result", "2026-10-04 06:00", "2026-10-04 22:40"],
    ],
  },
  {
    name: "silence over a closed Sunday and Monday, at the last second of its grace",
    by: "A is Mon 16 Nov 15:00, shut: last walk-in Sat 14 Nov 16:30. The next local day with hours is Tuesday, to 17:00. A new test goes on Wed 09:15 at the soonest: Fri 20 Nov 09:15.",
    ask: { ...CLOSED_MONDAY, now: "2026-11-17T17:00:00Z" },
    route: "in-salon",
    standing: "late",
    routes: [["in-salon", false, "2026-11-14 16:30", "2026-11-20 09:15"]],
    steps: [
      ["screening", "2026-10-31 16:30", "2026-11-14 16:30"],
      ["application", "2026-11-14 09:00", "2026-11-14 16:30"],
      ["reading 1", "2026-11-16 16:30", "2026-11-16 19:30"],
      ["result", "2026-11-16 16:30", "2026-11-17 17:00"],
    ],
  },
  {
    name: "the same, one second later",
    by: "22: only then is it no-time.",
    ask: { ...CLOSED_MONDAY, now: "2026-11-17T17:00:01Z" },
    route: null,
    standing: "no-time",
    routes: [["in-salon", false, "2026-11-14 16:30", "2026-11-20 09:15"]],
    steps: [],
  },
  {
    name: "two protocols joined, which leave one instant",
    by: "At least 48 h by the one, at most 48 h by the other: Tue 27 Oct 10:30 alone. All looks are taken, by `after`: 30 minutes, 24 h, 48 h, each due 3 h on and no later than B.",
    ask: {
      ...OCTOBER,
      now: "2026-10-13T10:29:59Z",
      settings: {
        ...OCTOBER.settings,
        tests: [{ route: "in-salon", protocol: ["window-24-48h", "two-looks-48h"] }],
      },
    },
    route: "in-salon",
    standing: "on-track",
    routes: [["in-salon", true, "2026-10-27 10:30"]],
    steps: [
      ["screening", "2026-10-13 10:30", "2026-10-27 10:30"],
      ["application", "2026-10-27 10:30", "2026-10-27 10:30"],
      ["reading 1", "2026-10-27 11:00", "2026-10-27 14:00"],
      ["reading 2", "2026-10-28 10:30", "2026-10-28 13:30"],
      ["reading 3", "2026-10-29 10:30", "2026-10-29 10:30"],
      ["result", "2026-10-29 10:30", "2026-10-29 10:30"],
    ],
  },
];
