/** When a diary is asked next: slots, backing off, Retry-After; and how many are asked at once. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { parseHttpDate } from "../../src/salon/httpDate.ts";
import { PullQueue } from "../../src/salon/PullQueue.ts";
import { retryAfterSeconds } from "../../src/salon/retryAfter.ts";
import { jitterOf, nextPollAt } from "../../src/salon/schedule.ts";
import { MINUTE } from "../../src/time/instant.ts";

const every = (pollMinutes: number) => ({ name: "main", url: "https://calendar.example/a.ics", pollMinutes });

test("a failing diary is asked ever more rarely, but within the hour and never more often than its interval", () => {
  const minutes = (failures: number, pollMinutes = 15) => nextPollAt(every(pollMinutes), failures, null, 0, 0) / MINUTE;
  expect([0, 1, 2, 3, 4, 5, 50].map((failures) => minutes(failures))).toEqual([15, 30, 60, 60, 60, 60, 60]);
  expect([1, 2, 50].map((failures) => minutes(failures, 59))).toEqual([60, 60, 60]);
  const [interval, failures, jitter, now] = [
    fc.integer({ min: 5, max: 1_440 }),
    fc.integer({ min: 1, max: 1_000 }),
    fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }),
    fc.integer({ min: 0, max: 4_000_000_000 }),
  ];
  fc.assert(
    fc.property(interval, failures, jitter, now, (pollMinutes, failed, share, at) => {
      const wait = nextPollAt(every(pollMinutes), failed, null, at, share) - at;
      expect(wait).toBeGreaterThan(0);
      if (pollMinutes < 60) {
        expect(wait).toBeGreaterThanOrEqual(pollMinutes * MINUTE);
        expect(wait).toBeLessThanOrEqual(60 * MINUTE);
      } else expect(wait).toBeLessThanOrEqual(pollMinutes * MINUTE * 1.1);
    }),
  );
});

test("a diary that answers is asked at its own slot, at most a tenth late, and then once an interval", () => {
  fc.assert(
    fc.property(
      fc.string(),
      fc.integer({ min: 5, max: 1_440 }),
      fc.nat({ max: 4_000_000_000 }),
      (name, minutes, now) => {
        const interval = minutes * MINUTE;
        const first = nextPollAt(every(minutes), 0, null, now, jitterOf(name));
        expect(first).toBeGreaterThan(now);
        expect(first).toBeLessThanOrEqual(now + interval * 1.1);
        // Asked some seconds late, as an alarm is and a body takes: the slots stay where they are.
        expect(nextPollAt(every(minutes), 0, null, first + 20, jitterOf(name))).toBe(first + interval);
      },
    ),
  );
});

test("five thousand salons asked in one second, at first or after an outage, lie evenly over the interval from then on", () => {
  const [salons, minutes] = [5_000, 15];
  const perMinute = Array<number>(17).fill(0);
  for (let salon = 0; salon < salons; salon++) {
    const next = nextPollAt(every(minutes), 0, null, 1_790_000_000, jitterOf(`salon-${salon} main`));
    perMinute[Math.floor((next - 1_790_000_000) / MINUTE)] =
      (perMinute[Math.floor((next - 1_790_000_000) / MINUTE)] ?? 0) + 1;
  }
  // A whole minute has a fifteenth of them: 333; five standard deviations are 88.
  for (const asked of perMinute.slice(2, 16)) expect(Math.abs(asked - salons / minutes)).toBeLessThan(88);
  expect(Math.max(...perMinute)).toBeLessThan(salons / minutes + 88);
});

test("the chairs of one salon, whose names differ in one letter, do not ask together", () => {
  const shares = Array.from({ length: 50 }, (_, chair) => jitterOf(`5b1c salon chair ${chair}`)).sort((a, b) => a - b);
  const fullest = Math.max(
    ...Array.from({ length: 10 }, (_, tenth) => shares.filter((share) => Math.floor(share * 10) === tenth).length),
  );
  expect(fullest).toBeLessThanOrEqual(14);
});

// RFC 9110 §5.6.7 prints this instant in the three forms, and §10.2.3 a date and 120 seconds.
const PRINTED = Date.UTC(1994, 10, 6, 8, 49, 37) / 1000;
test.each([
  ["Sun, 06 Nov 1994 08:49:37 GMT", PRINTED],
  ["Sunday, 06-Nov-94 08:49:37 GMT", PRINTED],
  ["Sun Nov  6 08:49:37 1994", PRINTED],
  ["Fri, 31 Dec 1999 23:59:59 GMT", Date.UTC(1999, 11, 31, 23, 59, 59) / 1000],
  ["Wednesday, 25-Nov-26 10:00:00 GMT", Date.UTC(2026, 10, 25, 10) / 1000],
  ["Fri, 31 Feb 2026 10:00:00 GMT", null],
  ["Sun, 06 Nov 1994 25:49:37 GMT", null],
  ["Sun, 06 Nov 1994 08:49:37", null],
  ["Sun, 06 Nov 1994 08:49:37 +0100", null],
  ["1994-11-06T08:49:37Z", null],
  ["tomorrow", null],
  ["", null],
])("the HTTP date %j is %s", (text, seconds) => {
  expect(parseHttpDate(text, 2026)).toBe(seconds);
});

const NOW = Date.UTC(2026, 11, 1, 9) / 1000;
test.each([
  ["120", 120],
  [" 120 ", 120],
  ["0", 0],
  ["99999999999999999999", 86_400],
  ["Tue, 01 Dec 2026 10:00:00 GMT", 3_600],
  ["Tuesday, 01-Dec-26 10:00:00 GMT", 3_600],
  ["Tue Dec  1 10:00:00 2026", 3_600],
  ["Tue, 01 Dec 2026 08:00:00 GMT", 0],
  ["Fri, 01 Jan 2038 08:00:00 GMT", 86_400],
  ["-5", null],
  ["1.5", null],
  ["1e3", null],
  ["0x10", null],
  ["soon", null],
  ["", null],
  [null, null],
])("Retry-After %j asks for %s seconds", (header, seconds) => {
  expect(retryAfterSeconds(header, NOW)).toBe(seconds);
});

test("Retry-After is never undercut, by no jitter and no interval, and is obeyed for a day at most", () => {
  const [seconds, jitter] = [fc.integer({ min: 0, max: 200_000 }), fc.double({ min: 0, max: 0.999, noNaN: true })];
  fc.assert(
    fc.property(seconds, jitter, fc.nat({ max: 20 }), (asked, share, failures) => {
      const wait = nextPollAt(every(15), failures, asked, NOW, share) - NOW;
      expect(wait).toBeGreaterThanOrEqual(Math.min(asked, 86_400));
      expect(wait).toBeLessThanOrEqual(Math.max(60 * MINUTE, Math.min(asked, 86_400) + 90));
    }),
  );
});

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

test("fifty diaries are asked four at a time, every one of them, and one that fails gives its place on", async () => {
  const queue = new PullQueue(4);
  let [most, done] = [0, 0];
  const pulls = Array.from({ length: 50 }, (_, diary) =>
    queue.add(String(diary), async () => {
      most = Math.max(most, queue.running);
      await settled();
      done++;
      if (diary % 7 === 0) throw new Error(`diary ${diary}`);
    }),
  );
  const outcomes = await Promise.allSettled(pulls);
  expect([most, done, queue.running]).toEqual([4, 50, 0]);
  expect(outcomes.filter(({ status }) => status === "rejected")).toHaveLength(8);
});

test("whoever asks while a diary is being asked shares the one pull after it, and is told what that one finds", async () => {
  const queue = new PullQueue(4);
  const begun: string[] = [];
  let letGo: () => void = () => {};
  const slow = queue.add("chair", async () => {
    begun.push("first");
    await new Promise<void>((resolve) => (letGo = resolve));
  });
  const [second, third] = ["second", "third"].map((name) => queue.add("chair", async () => void begun.push(name)));
  await queue.add("other", async () => void begun.push("other"));
  expect(begun).toEqual(["first", "other"]);
  letGo();
  await Promise.all([slow, second, third]);
  expect(begun).toEqual(["first", "other", "second"]);
  await queue.add("chair", async () => void begun.push("later"));
  expect(begun.at(-1)).toBe("later");
});

test("a pull that fails does not take the one after it along", async () => {
  const queue = new PullQueue(1);
  const failing = queue.add("chair", async () => {
    await settled();
    throw new Error("no");
  });
  const after = queue.add("chair", async () => {});
  await expect(failing).rejects.toThrow("no");
  await expect(after).resolves.toBeUndefined();
});
