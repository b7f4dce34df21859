/**
 * Laws of time and publication: one leap and many small ones end in the same state, a later alarm loses nothing, stamps
 * follow content and never fall. Nothing is looked up; the laws are the project's own (DEVELOPERS.md, Laws).
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { Fact } from "../../src/plan/types.ts";
import { applyBookings } from "../../src/salon/applyBookings.ts";
import { compileDesk, type SalonDesk } from "../../src/salon/desk.ts";
import { emptyState } from "../../src/salon/emptyState.ts";
import { newDiary } from "../../src/salon/newDiary.ts";
import { horizonToday } from "../../src/salon/blockReads.ts";
import { change, nextBoundary, settle, touch, type Work } from "../../src/salon/settle.ts";
import { type Diary, NO_CIRCUMSTANCES, type State, type StoredEvent } from "../../src/salon/types.ts";
import { settingsSchema } from "../../src/settings.ts";
import { DAY_SECONDS, HOUR, type Instant, parseInstant } from "../../src/time/instant.ts";
import { makeFact } from "./plan-arbitraries.ts";

const RUNS = Number(process.env["SETTLE_RUNS"] ?? 60);
const BEGIN = parseInstant("2026-10-20T08:00:00Z") as Instant;

const deskOf = async (zone: string): Promise<SalonDesk> => {
  const settings = settingsSchema.parse({
    name: "Quillfen Colour Room",
    zone,
    tests: [
      { route: "home-kit", protocol: "home-kit-120h" },
      { route: "in-salon", protocol: "two-looks-48h" },
    ],
    opening: { tue: ["09:00-12:00", "13:00-17:30"], wed: ["09:00-17:30"], thu: ["11:00-20:00"], sat: ["08:30-16:00"] },
  });
  const made = await compileDesk(
    settings,
    { id: "00112233445566778899", origin: "https://countback.test", linkSecret: "s" },
    2026,
  );
  if (!made.ok) throw new Error("the settings of this test are refused");
  return made.desk;
};

const DESKS = await Promise.all(["Europe/London", "Australia/Lord_Howe", "America/St_Johns"].map(deskOf));

const EMPTY: State = { ...emptyState(BEGIN), diaries: new Map([["main", newDiary("main", BEGIN)]]) };

/** Something that happens at a moment: a reading with these bookings, or a record. */
type Happening =
  | {
      readonly kind: "reading";
      readonly after: number;
      readonly starts: readonly number[];
      /** Skin tests in the diary: hours from the beginning, and how much of the person they say. */
      readonly tests: readonly { readonly hours: number; readonly who: number; readonly says: "name" | "address" }[];
    }
  | {
      readonly kind: "record";
      readonly after: number;
      readonly fact: Fact["kind"];
      readonly booking: number;
      readonly outcome: Fact["outcome"];
    };

const happening: fc.Arbitrary<Happening> = fc.oneof(
  fc.record({
    kind: fc.constant("reading" as const),
    after: fc.integer({ min: 0, max: 9 * DAY_SECONDS }),
    starts: fc.array(fc.integer({ min: 0, max: 40 * 24 }), { maxLength: 4 }),
    tests: fc.array(
      fc.record({
        hours: fc.integer({ min: 0, max: 40 * 24 }),
        who: fc.nat({ max: 2 }),
        says: fc.constantFrom("name", "address"),
      }),
      { maxLength: 3 },
    ),
  }),
  fc.record({
    kind: fc.constant("record" as const),
    after: fc.integer({ min: 0, max: 4 * DAY_SECONDS }),
    fact: fc.constantFrom("screened", "posted", "arrived", "applied", "removed", "read", "reacted", "confirmed"),
    booking: fc.integer({ min: 0, max: 3 }),
    outcome: fc.constantFrom("clear", "not-sure", "reaction"),
  }),
);

const NOTHING = { cancelled: new Set<string>(), unclear: new Set<string>() };
/** Two of one name, one of them without an address, and a third. */
const CLIENTS = [
  { name: "Mara Quillfeather", email: "mara@example.com", phone: null },
  { name: "Wren Tallis-Moor", email: "wren@example.com", phone: null },
  { name: "Mara Quillfeather", email: null, phone: null },
] as const;

const edit =
  (happened: Happening, desk: SalonDesk) =>
  (work: Work): void => {
    if (happened.kind === "reading") {
      const found = happened.starts.map((hours, index) => ({
        key: `b${index}`,
        uid: `b${index}`,
        recurrenceId: null,
        diary: "main",
        start: BEGIN + hours * HOUR,
        end: null,
        summary: "Root tint",
        service: "Colour",
        client: CLIENTS[(index + Math.floor(hours)) % 3] as (typeof CLIENTS)[number],
      }));
      const tests = happened.tests.map(({ hours, who, says }, index) => ({
        key: `t${index}`,
        uid: `t${index}`,
        recurrenceId: null,
        diary: "main",
        end: null,
        summary: "Skin test",
        start: BEGIN + hours * HOUR,
        client: { ...(CLIENTS[who] as (typeof CLIENTS)[number]), ...(says === "name" ? { email: null } : {}) },
      }));
      applyBookings(work, "main", { bookings: found, tests }, NOTHING, horizonToday(desk.rules.zone, work.at));
      work.diaries.set("main", { ...(work.diaries.get("main") as Diary), lastGood: work.at });
      work.diariesTouched = true;
      return;
    }
    const booking = work.bookings.get(`b${happened.booking}`);
    if (!booking) return;
    const outcome = happened.fact === "read" ? happened.outcome : happened.fact === "screened" ? "pass" : null;
    const fact = makeFact({ kind: happened.fact, at: work.at, outcome, client: booking.client, booking: booking.uid });
    const id = `r${work.nextFact++}`;
    work.facts.set(id, { ...fact, id, recorded: work.at, circumstances: NO_CIRCUMSTANCES, reaction: null });
    touch(work, booking.client);
  };

const story = fc.record({
  desk: fc.constantFrom(...DESKS),
  happenings: fc.array(happening, { minLength: 1, maxLength: 7 }),
  stops: fc.array(fc.integer({ min: 0, max: 60 * DAY_SECONDS }), { maxLength: 12 }),
});

const play = (
  desk: SalonDesk,
  happenings: readonly Happening[],
  stops: readonly number[],
  each?: (state: State) => void,
): State => {
  let state = settle(EMPTY, BEGIN, desk);
  let at = BEGIN;
  /** Where something watches, no boundary is passed unseen: content may change at one and change back at the next. */
  const walk = (to: Instant): void => {
    for (let next = nextBoundary(state, desk); next !== null && next <= to; next = nextBoundary(state, desk)) {
      state = settle(state, next, desk);
      each?.(state);
    }
  };
  const leap = (to: Instant): void => {
    if (each) walk(to);
    for (const stop of [...stops].sort((a, b) => a - b)) {
      const moment = BEGIN + stop;
      if (moment > state.settledTo && moment <= to) {
        state = settle(state, moment, desk);
        each?.(state);
      }
    }
  };
  for (const happened of happenings) {
    at += happened.after;
    leap(at);
    state = change(state, at, desk, edit(happened, desk));
    each?.(state);
  }
  leap(BEGIN + 100 * DAY_SECONDS);
  state = settle(state, BEGIN + 100 * DAY_SECONDS, desk);
  each?.(state);
  return state;
};

test("settling in one leap or in many small ones gives the same state", () => {
  fc.assert(
    fc.property(story, ({ desk, happenings, stops }) => {
      expect(play(desk, happenings, stops)).toEqual(play(desk, happenings, []));
    }),
    { numRuns: RUNS },
  );
});

test("nothing is stale: making every plan anew says nothing that is not said already, and waits for the same moment", () => {
  fc.assert(
    fc.property(story, ({ desk, happenings, stops }) => {
      play(desk, happenings, stops, (state) => {
        const anew = change(state, state.settledTo, desk, (work) => {
          work.touched = "all";
        });
        const said = ({ events, bookings }: State) => [
          [...events.values()].filter(({ booking }) => booking !== null).map(({ content }) => content),
          [...bookings.values()].map(({ uid, next }) => [uid, next]),
        ];
        expect(said(anew)).toEqual(said(state));
      });
    }),
    { numRuns: RUNS },
  );
});

test("settling twice to one instant changes nothing, and the next boundary always lies ahead", () => {
  fc.assert(
    fc.property(story, ({ desk, happenings, stops }) => {
      play(desk, happenings, stops, (state) => {
        expect(settle(state, state.settledTo, desk)).toBe(state);
        const next = nextBoundary(state, desk);
        if (next !== null) expect(next).toBeGreaterThan(state.settledTo);
      });
    }),
    { numRuns: RUNS },
  );
});

test("sequences and LAST-MODIFIED never fall, and both stand still where the content does", () => {
  fc.assert(
    fc.property(story, ({ desk, happenings, stops }) => {
      let before: State | undefined;
      const highest = new Map<string, StoredEvent["stamps"]>();
      play(desk, happenings, stops, (state) => {
        for (const [key, event] of state.events) {
          const was = before?.events.get(key);
          const ever = highest.get(key);
          highest.set(key, event.stamps);
          // One that was let go and is said again goes on from its stamps.
          if (!was && ever) expect(event.stamps.sequence).toBeGreaterThan(ever.sequence);
          if (!was && ever) expect(event.stamps.lastModified).toBeGreaterThan(ever.lastModified);
          if (!was) continue;
          expect(event.stamps.created).toBe(was.stamps.created);
          const isSame = JSON.stringify(was.content) === JSON.stringify(event.content);
          if (isSame) expect(event.stamps).toEqual(was.stamps);
          if (!isSame) expect(event.stamps.lastModified).toBeGreaterThan(was.stamps.lastModified);
          expect(event.stamps.sequence).toBeGreaterThanOrEqual(was.stamps.sequence);
          const isMoved = JSON.stringify(was.content.time) !== JSON.stringify(event.content.time);
          if (isMoved) expect(event.stamps.sequence).toBeGreaterThan(was.stamps.sequence);
        }
        for (const [key, was] of before?.events ?? []) {
          if (state.events.has(key)) continue;
          expect(was.expires).toBeLessThanOrEqual(state.settledTo);
          expect(state.bookings.get(was.booking ?? "")?.said?.sequence).toBeGreaterThanOrEqual(was.stamps.sequence);
        }
        before = state;
      });
    }),
    { numRuns: RUNS },
  );
});

test("reading the same bookings again changes no event", () => {
  fc.assert(
    fc.property(story, ({ desk, happenings }) => {
      const state = play(desk, happenings, []);
      const reading: Happening = { kind: "reading", after: 0, starts: [24, 800, 900], tests: [] };
      const once = change(state, state.settledTo, desk, edit(reading, desk));
      // Every plan is made and published anew, as after a change of code: what says the same must keep its stamps.
      const twice = change(once, once.settledTo, desk, (work) => {
        edit(reading, desk)(work);
        work.touched = "all";
      });
      expect(twice.events).toEqual(once.events);
      expect(twice.bookings).toEqual(once.bookings);
    }),
    { numRuns: RUNS },
  );
});

test("leaving out an unrelated entry moves no step of any other booking", () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...DESKS),
      fc.array(fc.integer({ min: 24, max: 40 * 24 }), { minLength: 2, maxLength: 5 }),
      fc.nat({ max: 4 }),
      (desk, starts, place) => {
        const left = place % starts.length;
        const read = (indexes: readonly number[]): State =>
          change(EMPTY, BEGIN, desk, (work) => {
            const found = indexes.map((index) => ({
              key: `b${index}`,
              uid: `b${index}`,
              recurrenceId: null,
              diary: "main",
              start: BEGIN + (starts[index] as number) * HOUR,
              end: null,
              summary: "Root tint",
              service: "Colour",
              client: { name: `Client Number${index}`, email: `c${index}@example.com`, phone: null },
            }));
            applyBookings(
              work,
              "main",
              { bookings: found, tests: [] },
              NOTHING,
              horizonToday(desk.rules.zone, work.at),
            );
          });
        const all = starts.map((_, index) => index);
        const stepsOf = (state: State) =>
          [...state.events.values()]
            .filter(({ audience, booking }) => audience === "salon" && booking !== null && booking !== `b${left}`)
            .map(({ content, stamps }) => ({ ...content, stamps }));
        const others = all.filter((index) => index !== left);
        const sorted = (state: State) => stepsOf(state).sort((a, b) => (a.uid < b.uid ? -1 : 1));
        expect(sorted(read(all))).toEqual(sorted(read(others)));
      },
    ),
    { numRuns: RUNS },
  );
});
