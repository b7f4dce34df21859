import { describe, expect, test } from "vitest";
import { clientLabel } from "../../src/feed/clientLabel.ts";
import { enGB } from "../../src/feed/language/en-GB.ts";
import { enUS } from "../../src/feed/language/en-US.ts";
import { salonEvents } from "../../src/feed/salonEvents.ts";
import { durationInWords, lengthInWords, longTime, shortTime } from "../../src/feed/timeInWords.ts";
import { HOUR, MINUTE } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";
import { at, COLOUR, contextOf, planOf, salonSteps } from "./feed-plans.ts";

describe("times in words", () => {
  const london = Zone.named("Europe/London") as Zone;

  test("are the salon's clock, 24 hours in British English and 12 in American", () => {
    expect(shortTime(COLOUR, london, enGB.time)).toBe("Fri 10:30");
    expect(longTime(COLOUR, london, enGB.time)).toBe("Fri 11 Dec 2026, 10:30");
    expect(longTime(COLOUR + 6 * HOUR, london, enUS.time)).toBe("Fri, Dec 11, 2026, 4:30 PM");
    expect(shortTime(at("2026-12-11T00:05:00Z"), london, enUS.time)).toBe("Fri 12:05 AM");
    expect(shortTime(at("2026-12-11T12:05:00Z"), london, enUS.time)).toBe("Fri 12:05 PM");
    expect(shortTime(at("2026-07-01T09:00:00Z"), london, enGB.time)).toBe("Wed 10:00");
  });

  test("tell the two passes of a repeated hour apart (IANA tzdata 2025b: 25 October 2026, 01:00 UTC)", () => {
    expect(shortTime(at("2026-10-25T00:30:00Z"), london, enGB.time)).toBe("Sun 01:30");
    expect(shortTime(at("2026-10-25T01:30:00Z"), london, enGB.time)).toBe("Sun 01:30 (after the clocks go back)");
  });

  test("lengths are exact hours, never days", () => {
    const lengths = [48 * HOUR, 48 * HOUR + 30 * MINUTE, 45 * MINUTE, HOUR, 0];
    expect(lengths.map((length) => lengthInWords(length, enGB.time))).toEqual([
      "48 hours",
      "48 hours 30 minutes",
      "45 minutes",
      "1 hour",
      "0 hours",
    ]);
    expect(durationInWords("PT120H", enGB.time)).toBe("120 hours");
    expect(durationInWords("P2D", enGB.time)).toBeNull();
  });
});

describe("what the salon's feed calls a client", () => {
  test("initials of three words at most, whatever the alphabet", () => {
    const names = [
      "Marit Tunnock",
      "mary-ann o'brien",
      "  Anne  de la Tour ",
      "Ólöf Ása",
      "(new) Zoë",
      "",
      "!!",
      "李明",
    ];
    expect(names.map((name) => clientLabel(name, "initials"))).toEqual([
      "M.T.",
      "M.O.",
      "A.D.L.",
      "Ó.Á.",
      "N.Z.",
      null,
      null,
      "李.",
    ]);
  });

  test("a client without a name is still told of", () => {
    const plan = planOf("on-track", salonSteps());
    const nameless = { ...plan, booking: { ...plan.booking, client: null } };
    expect(salonEvents(nameless, contextOf())[1]?.summary).toBe("Walk-in skin test expected: a client, by Wed 10:30");
  });

  test("a long name is cut before the time is", () => {
    const label = clientLabel("😀".repeat(5_000), "names") ?? "";
    expect(label.length).toBeLessThanOrEqual(80);
    expect(label.isWellFormed()).toBe(true);
  });
});
