/**
 * Identity over random sequences of readings, against a world that knows which appointment is which: who is unambiguous
 * keeps her identity, two people's bookings never become one, and nothing stands twice. The project's own rules.
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import { applyBookings } from "../../src/salon/applyBookings.ts";
import type { Work } from "../../src/salon/settle.ts";
import { DAY_SECONDS, HOUR, type Instant, parseInstant } from "../../src/time/instant.ts";
import { DIARIES, type DiaryName, type Happening, World } from "./identity-world.ts";
import { seedOf } from "./law-runs.ts";

const RUNS = Number(process.env["IDENTITY_RUNS"] ?? 1_500);
const BEGIN = parseInstant("2026-10-20T08:00:00Z") as Instant;
const NOTHING = { cancelled: new Set<string>(), unclear: new Set<string>() };

interface Step {
  /** One a person at most: what two edits of one person's appointments look like from outside may be ambiguous. */
  readonly happenings: readonly Happening[];
  readonly uids: "kept" | "renewed" | "numbered";
  readonly firstRead: DiaryName;
  readonly hours: number;
  readonly dropsPast: boolean;
}

const happening: fc.Arbitrary<Happening> = fc.record({
  who: fc.nat(5),
  which: fc.nat(5),
  kind: fc.constantFrom(
    "move",
    "remake",
    "chair",
    "chair-and-move",
    "shift",
    "split",
    "correct",
    "delete",
    "add",
    "turn",
  ),
  amount: fc.nat(200),
});
const step: fc.Arbitrary<Step> = fc.record({
  happenings: fc.uniqueArray(happening, { maxLength: 4, selector: ({ who }) => who }),
  uids: fc.oneof(
    { weight: 5, arbitrary: fc.constant("kept" as const) },
    { weight: 2, arbitrary: fc.constant("renewed" as const) },
    { weight: 1, arbitrary: fc.constant("numbered" as const) },
  ),
  firstRead: fc.constantFrom(...DIARIES),
  hours: fc.integer({ min: 1, max: 50 }),
  dropsPast: fc.boolean(),
});

const emptyWork = (): Work => ({
  at: BEGIN,
  clients: new Map(),
  bookings: new Map(),
  facts: new Map(),
  deeds: new Map(),
  tests: new Map(),
  questions: new Map(),
  screenings: new Map(),
  consents: new Map(),
  erased: new Map(),
  answers: new Map(),
  events: new Map(),
  diaries: new Map(),
  nextClient: 1,
  nextFact: 1,
  next: { s: 1, k: 1, d: 1 },
  touched: new Set(),
  diariesTouched: false,
});

/** Needs an entry's own UID to be told: the same booking in another chair, or of another name. */
const BY_UID: ReadonlySet<Happening["kind"]> = new Set(["chair", "chair-and-move", "correct", "turn"]);
/** Where every UID differs, an entry of the same reading that is gone and another that is new may look like one that moved. */
const COMES_OR_GOES: ReadonlySet<Happening["kind"]> = new Set(["add", "delete"]);

test(`in ${RUNS} random histories every booking that can be told keeps its identity, and no two people's become one`, () => {
  let told = 0;
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 6 }), fc.array(step, { minLength: 1, maxLength: 7 }), (people, steps) => {
      let now = BEGIN;
      const world = new World(people, now);
      let work = emptyWork();
      const identityOf = new Map<string, string>();
      const personOf = new Map<string, number>();
      const read = (diary: DiaryName, from: Instant): void => {
        work = { ...work, at: now };
        const shown = world.show(diary, from);
        const horizon = { from: now - 30 * DAY_SECONDS, to: now + 400 * DAY_SECONDS };
        const found = { bookings: shown.map((each) => each.found), tests: [] };
        applyBookings(work, diary, found, NOTHING, horizon);
      };
      const check = (isNumbered: boolean): void => {
        const live = [...work.bookings.values()].filter(
          ({ cancelledAt, start }) => cancelledAt === null && start > now,
        );
        const ahead = world.ahead(now);
        expect(live.length).toBe(ahead.size);
        for (const diary of DIARIES) {
          const byKey = new Map(live.filter((each) => each.diary === diary).map((each) => [each.key, each.uid]));
          for (const { id, person, found } of world.show(diary, now + 1)) {
            const uid = byKey.get(found.key);
            // Under numbers, one person's own entries may change places: each is then taken for the other, moved.
            if (!isNumbered || world.coursesOf(person) === 1) expect(uid).toBe(identityOf.get(id) ?? uid);
            expect(uid).toBeDefined();
            if (uid === undefined) continue;
            expect(personOf.get(uid) ?? person).toBe(person);
            if (identityOf.has(id)) told++;
            identityOf.set(id, uid);
            personOf.set(uid, person);
          }
        }
      };
      for (const diary of DIARIES) read(diary, now);
      check(false);
      for (const { happenings, uids, firstRead, hours, dropsPast } of steps) {
        now += hours * HOUR;
        const busy = new Set<number>();
        for (const each of happenings) {
          if (busy.has(each.who % people)) continue;
          busy.add(each.who % people);
          if (uids !== "kept" && BY_UID.has(each.kind)) continue;
          if (uids !== "kept" && COMES_OR_GOES.has(each.kind)) continue;
          if (uids === "numbered") continue;
          world.happen(each, now);
        }
        for (const diary of DIARIES) {
          if (uids === "renewed") world.renewUids(diary);
          if (uids === "numbered") world.numberUids(diary, hours % 2 === 0);
        }
        const second = firstRead === "A" ? "B" : "A";
        const from = dropsPast ? now : now - 30 * DAY_SECONDS;
        read(firstRead, from);
        now += 60;
        read(second, from);
        check(uids === "numbered");
      }
    }),
    { numRuns: RUNS, seed: seedOf("identity") },
  );
  expect(told).toBeGreaterThan(RUNS * 5);
});
