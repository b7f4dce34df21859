/**
 * Reckoned by hand from counting.md before the service was asked: what records do to a plan. Times are UTC; `by` says how
 * each was come by.
 */
import { type HandCase, KIT, OCTOBER, type StepRow } from "./handCase.ts";

/** What counting.md's own table says of its kit up to the application, whatever is recorded. */
const OCTOBER_POST: readonly StepRow[] = [
  ["shipping", "2026-10-20 08:00", "2026-10-20 15:30", "done"],
  ["arrival", "2026-10-22 23:00", "2026-10-23 17:00", "done"],
];

/** A kit test put on on the last day of August under another booking, every holding look clear. */
const AUGUST_TEST = [
  { booking: "summer", kind: "applied", route: "home-kit", at: "2026-08-31T09:00:00Z" },
  { booking: "summer", kind: "read", outcome: "clear", at: "2026-09-02T10:00:00Z" },
  { booking: "summer", kind: "read", outcome: "clear", at: "2026-09-04T10:00:00Z" },
];
const SIX_MONTHS = { tests: [{ ...KIT[0], onFile: { months: 6 } }] };

export const RECORD_CASES: readonly HandCase[] = [
  {
    name: "a walk-in asked for where the kit comes first",
    by: "counting.md's own table: walk-in until Tue 27 Oct 10:30, kit until Tue 20 Oct 16:30 BST. 48 h after the walk-in's due is B.",
    ask: {
      ...OCTOBER,
      now: "2026-10-05T12:00:00Z",
      records: [{ kind: "route", route: "in-salon", at: "2026-10-05T10:00:00Z" }],
    },
    route: "in-salon",
    standing: "on-track",
    routes: [
      ["in-salon", true, "2026-10-27 10:30"],
      ["home-kit", true, "2026-10-20 15:30"],
    ],
    steps: [
      ["screening", "2026-10-13 10:30", "2026-10-27 10:30"],
      ["application", "2026-10-27 09:00", "2026-10-27 10:30"],
      ["reading 1", "2026-10-29 10:30", "2026-10-29 10:30"],
      ["result", "2026-10-29 10:30", "2026-10-29 10:30"],
    ],
  },
  {
    name: "a kit posted a day late",
    by: "Handed over Wed 21 Oct it comes Sat 24 at 18:00 BST, after 11:30: it fits no more and the walk-in takes over. The kit would serve from Sat 17:00 UTC + 120 h: Thu 29 Oct 17:00, half an hour before closing.",
    ask: {
      ...OCTOBER,
      now: "2026-10-21T12:00:00Z",
      records: [{ kind: "posted", at: "2026-10-21T10:00:00Z" }],
    },
    route: "in-salon",
    standing: "due",
    routes: [
      ["home-kit", false, null, "2026-10-29 17:00"],
      ["in-salon", true, "2026-10-27 10:30"],
    ],
    steps: [
      ["screening", "2026-10-13 10:30", "2026-10-27 10:30"],
      ["application", "2026-10-27 09:00", "2026-10-27 10:30"],
      ["reading 1", "2026-10-29 10:30", "2026-10-29 10:30"],
      ["result", "2026-10-29 10:30", "2026-10-29 10:30"],
    ],
  },
  {
    name: "a kit that has arrived, the questions never asked",
    by: "The application opens with the arrival and its due stays; the screening's due, 19 Oct, has passed. Put on at its due, Sat 10:30 UTC: off Mon 10:30, looks Mon 11:00 and Wed 10:30.",
    ask: {
      ...OCTOBER,
      now: "2026-10-22T12:00:00Z",
      records: [
        { kind: "posted", at: "2026-10-19T10:00:00Z" },
        { kind: "arrived", at: "2026-10-22T09:00:00Z" },
      ],
    },
    route: "home-kit",
    standing: "late",
    routes: [
      ["home-kit", true, "2026-10-24 10:30"],
      ["in-salon", true, "2026-10-27 10:30"],
    ],
    steps: [
      ["screening", "2026-10-05 15:30", "2026-10-19 15:30"],
      ...OCTOBER_POST,
      ["application", "2026-10-22 09:00", "2026-10-24 10:30"],
      ["removal", "2026-10-26 10:30", "2026-10-26 13:30"],
      ["reading 1", "2026-10-26 11:00", "2026-10-26 14:00"],
      ["reading 2", "2026-10-28 10:30", "2026-10-28 13:30"],
      ["result", "2026-10-28 10:30", "2026-10-28 17:30"],
    ],
  },
  {
    name: "a test put on half an hour before its window",
    by: "The window is Tue 27 Oct 10:30 to Wed 28 Oct 10:30; 10:00 is outside, so the route is untouched. It opens with the window, which Tuesday's hours hold. The look, 24 h on, is at B.",
    ask: {
      ...OCTOBER,
      now: "2026-10-27T12:00:00Z",
      settings: { ...OCTOBER.settings, tests: [{ route: "in-salon", protocol: "window-24-48h" }] },
      records: [{ kind: "applied", at: "2026-10-27T10:00:00Z" }],
    },
    route: "in-salon",
    standing: "due",
    routes: [["in-salon", true, "2026-10-28 10:30"]],
    steps: [
      ["screening", "2026-10-14 10:30", "2026-10-28 10:30"],
      ["application", "2026-10-27 10:30", "2026-10-28 10:30"],
      ["reading 1", "2026-10-29 10:30", "2026-10-29 10:30"],
      ["result", "2026-10-29 10:30", "2026-10-29 10:30"],
    ],
  },
  {
    name: "a kit taken off three hours late",
    by: "On Sat 24 Oct 08:00 UTC, to come off Mon 08:00, off at 11:00: the first look, half an hour after the wear, moves to 11:30; the second, Wed 08:00, stays. A recorded application fits until B.",
    ask: {
      ...OCTOBER,
      now: "2026-10-26T11:10:00Z",
      records: [
        { kind: "screened", outcome: "pass", at: "2026-10-18T10:00:00Z" },
        { kind: "applied", at: "2026-10-24T08:00:00Z" },
        { kind: "removed", at: "2026-10-26T11:00:00Z" },
      ],
    },
    route: "home-kit",
    standing: "on-track",
    routes: [
      ["home-kit", true, "2026-10-29 10:30"],
      ["in-salon", true, "2026-10-27 10:30"],
    ],
    steps: [
      ["screening", "2026-10-05 15:30", "2026-10-19 15:30", "done"],
      ...OCTOBER_POST,
      ["application", "2026-10-24 07:00", "2026-10-24 10:30", "done"],
      ["removal", "2026-10-26 08:00", "2026-10-26 11:00", "done"],
      ["reading 1", "2026-10-26 11:30", "2026-10-26 14:30"],
      ["reading 2", "2026-10-28 08:00", "2026-10-28 11:00"],
      ["result", "2026-10-28 08:00", "2026-10-28 17:30"],
    ],
  },
  {
    name: "six months from 31 August, on the last day of February",
    by: "31 August and six months is 28 February, cut to the month's end: the result counts. Asked again by what a new kit would need: on by Tue 23 Feb 12:00, in hand Mon 22, posted Thu 18 Feb 16:30, 24 h before.",
    ask: {
      zone: "Europe/London",
      start: "2027-02-28T12:00",
      now: "2027-02-01T10:00:00Z",
      settings: SIX_MONTHS,
      records: AUGUST_TEST,
    },
    route: "on-file",
    standing: "on-track",
    routes: [
      ["on-file", true, "2027-02-28 12:00"],
      ["home-kit", true, "2027-02-18 16:30"],
    ],
    steps: [["rescreening", "2027-02-03 16:30", "2027-02-17 16:30"]],
  },
  {
    name: "the same result for a colour on 1 March",
    by: "One day too old. A new kit: on by Wed 24 Feb 12:00, in hand Tue 23, posted Fri 19 Feb 16:30 (Sat, Mon, Tue).",
    ask: {
      zone: "Europe/London",
      start: "2027-03-01T12:00",
      now: "2027-02-01T10:00:00Z",
      settings: SIX_MONTHS,
      records: AUGUST_TEST,
    },
    route: "home-kit",
    standing: "on-track",
    routes: [["home-kit", true, "2027-02-19 16:30"]],
    steps: [
      ["screening", "2027-02-04 16:30", "2027-02-18 16:30"],
      ["shipping", "2027-02-19 00:00", "2027-02-19 16:30"],
      ["arrival", "2027-02-23 00:00", "2027-02-23 18:00"],
      ["application", "2027-02-24 08:00", "2027-02-24 12:00"],
      ["removal", "2027-02-26 12:00", "2027-02-26 15:00"],
      ["reading 1", "2027-02-26 12:30", "2027-02-26 15:30"],
      ["reading 2", "2027-02-28 12:00", "2027-02-28 15:00"],
      ["result", "2027-02-28 12:00", "2027-03-01 12:00"],
    ],
  },
  {
    name: "the February colour where the questions ask for a test",
    by: "test-needed after the August test withdraws it: a whole new kit, the questions done, nothing open before shipping.",
    ask: {
      zone: "Europe/London",
      start: "2027-02-28T12:00",
      now: "2027-02-03T10:00:00Z",
      settings: SIX_MONTHS,
      records: [...AUGUST_TEST, { kind: "screened", outcome: "test-needed", at: "2027-02-02T10:00:00Z" }],
    },
    route: "home-kit",
    standing: "on-track",
    routes: [["home-kit", true, "2027-02-18 16:30"]],
    steps: [
      ["screening", "2027-02-03 16:30", "2027-02-17 16:30", "done"],
      ["shipping", "2027-02-18 00:00", "2027-02-18 16:30"],
      ["arrival", "2027-02-22 00:00", "2027-02-22 18:00"],
      ["application", "2027-02-23 08:00", "2027-02-23 12:00"],
      ["removal", "2027-02-25 12:00", "2027-02-25 15:00"],
      ["reading 1", "2027-02-25 12:30", "2027-02-25 15:30"],
      ["reading 2", "2027-02-27 12:00", "2027-02-27 15:00"],
      ["result", "2027-02-27 12:00", "2027-02-28 12:00"],
    ],
  },
];
