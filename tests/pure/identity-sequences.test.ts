/**
 * Published events over random histories of two diaries: whatever chair, UID or series a booking goes through, no SEQUENCE
 * and no LAST-MODIFIED falls, and what stands in a feed belongs to a booking that stands. The project's own rules.
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import { applyBookings } from "../../src/salon/applyBookings.ts";
import { compileDesk } from "../../src/salon/desk.ts";
import { emptyState } from "../../src/salon/emptyState.ts";
import { change } from "../../src/salon/settle.ts";
import type { State } from "../../src/salon/types.ts";
import { settingsSchema } from "../../src/settings.ts";
import { DAY_SECONDS, HOUR, type Instant, parseInstant } from "../../src/time/instant.ts";
import { DIARIES, type DiaryName, type Happening, World } from "./identity-world.ts";
import { seedOf } from "./law-runs.ts";

const RUNS = Number(process.env["SEQUENCE_RUNS"] ?? 60);
const BEGIN = parseInstant("2026-10-20T08:00:00Z") as Instant;
const NOTHING = { cancelled: new Set<string>(), unclear: new Set<string>() };

const made = await compileDesk(
  settingsSchema.parse({
    name: "Quillfen Colour Room",
    zone: "Europe/London",
    tests: [{ route: "in-salon", protocol: "salon-48h" }],
  }),
  { id: "00112233445566778899", origin: "https://countback.test", linkSecret: "s" },
  2026,
);
if (!made.ok) throw new Error("the settings of this test are refused");
const { desk } = made;

const happening: fc.Arbitrary<Happening> = fc.record({
  who: fc.nat(2),
  which: fc.nat(3),
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
const step = fc.record({
  happenings: fc.array(happening, { maxLength: 3 }),
  renews: fc.boolean(),
  reads: fc.uniqueArray(fc.constantFrom(...DIARIES), { minLength: 1, maxLength: 2 }),
  hours: fc.integer({ min: 1, max: 50 }),
});

const read = (state: State, world: World, diary: DiaryName, now: Instant): State =>
  change(state, now, desk, (work) => {
    const from = work.at - 30 * DAY_SECONDS;
    const bookings = world.show(diary, from).map(({ found }) => found);
    applyBookings(work, diary, { bookings, tests: [] }, NOTHING, { from, to: work.at + 400 * DAY_SECONDS });
  });

test(`in ${RUNS} random histories no sequence falls, and no event stands of a booking that does not`, () => {
  let events = 0;
  fc.assert(
    fc.property(fc.array(step, { minLength: 1, maxLength: 5 }), (steps) => {
      let now = BEGIN;
      const world = new World(3, now);
      let state = emptyState(BEGIN);
      const take = (diary: DiaryName): void => {
        const before = state.events;
        state = read(state, world, diary, now);
        for (const [key, { stamps }] of before) {
          const after = state.events.get(key)?.stamps;
          expect(after?.sequence).toBeGreaterThanOrEqual(stamps.sequence);
          expect(after?.lastModified).toBeGreaterThanOrEqual(stamps.lastModified);
          events++;
        }
        for (const { booking, content } of state.events.values()) {
          const known = state.bookings.get(booking ?? "");
          if (known && known.cancelledAt !== null) expect(content.cancelled).toBe(true);
        }
      };
      for (const diary of DIARIES) take(diary);
      for (const { happenings, renews, reads, hours } of steps) {
        now += hours * HOUR;
        for (const each of happenings) world.happen(each, now);
        if (renews) for (const diary of DIARIES) world.renewUids(diary);
        for (const diary of reads) {
          now += 60;
          take(diary);
        }
      }
    }),
    { numRuns: RUNS, seed: seedOf("identity sequences") },
  );
  expect(events).toBeGreaterThan(RUNS * 20);
});

test("a skin test that has begun stays once, whatever UID an export gives it", () => {
  const start = BEGIN - HOUR;
  const client = { name: "Mara Quillfeather", email: "mara@example.com", phone: null };
  const horizon = { from: BEGIN - 30 * DAY_SECONDS, to: BEGIN + 400 * DAY_SECONDS };
  const under = (state: State, key: string, at: Instant): State =>
    change(state, BEGIN + 60, desk, (work) => {
      const found = {
        key,
        uid: key,
        recurrenceId: null,
        diary: "A",
        start: at,
        end: null,
        summary: "Skin test",
        client,
      };
      applyBookings(work, "A", { bookings: [], tests: [found] }, NOTHING, horizon);
    });
  const first = under(emptyState(BEGIN), "a", start);
  expect([...under(first, "b", start).tests.values()].map(({ key }) => key)).toEqual(["b"]);
  expect([...under(first, "b", start + HOUR / 2).tests.values()].map(({ key }) => key)).toEqual(["a", "b"]);
});
