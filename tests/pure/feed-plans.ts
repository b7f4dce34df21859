/** Plans for the tests of feeds, put together by hand from the trade's check values; no engine has made them. */
import type { Plan, Standing, Step, StepKind } from "../../src/plan/types.ts";
import { type Settings, settingsSchema } from "../../src/settings.ts";
import type { EventContent, EventStamps, FeedContext, FeedHead } from "../../src/feed/types.ts";
import { HOUR, type Instant, MINUTE, parseInstant } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";

export const at = (text: string): Instant => parseInstant(text) as Instant;

/** The settings a salon would send, with every default filled in. */
export const settingsOf = (more: Readonly<Record<string, unknown>> = {}): Settings =>
  settingsSchema.parse({
    name: "Juniper Lane Colour Room",
    zone: "Europe/London",
    country: "GB",
    contact: { phone: "020 7946 0000", email: "hello@juniper.example", address: "3 Juniper Lane" },
    tests: [
      { route: "home-kit", protocol: "home-kit-120h", kit: { name: "Leaf kit", instructions: "Read the leaf first." } },
      { route: "in-salon", protocol: "salon-48h" },
    ],
    ...more,
  });

export const contextOf = (more: Readonly<Record<string, unknown>> = {}, pageUrl: string | null = PAGE): FeedContext => {
  const settings = settingsOf(more);
  return {
    settings,
    zone: Zone.named(settings.zone) as Zone,
    pageUrl,
    wording: settings.show.words,
    uidOf: (booking, kind, n) => `${booking}|${kind}|${n ?? "-"}`,
  };
};
export const PAGE = "https://count.example/c/k3y";

export const COLOUR = at("2026-12-11T10:30:00Z");
export const PUT_ON = COLOUR - 120 * HOUR;

export const step = (kind: StepKind, opens: Instant, due: Instant, more: Partial<Step> = {}): Step => ({
  uid: `b1|${kind}|${more.n ?? "-"}`,
  kind,
  n: null,
  who: kind === "shipping" || kind === "result" ? "salon" : "client",
  opens,
  due,
  state: "planned",
  rule: { protocol: "home-kit-120h", duration: null, source: "common practice, no source" },
  counted: null,
  booked: null,
  ...more,
});

export const wornFrom = (from: Instant, recorded: boolean): readonly Step[] => {
  const counted = (after: number): Partial<Step> => ({ counted: { from, after, recorded } });
  const [off, first, second] = [48 * HOUR, 48 * HOUR + 30 * MINUTE, 96 * HOUR];
  return [
    step("removal", from + off, from + off + 3 * HOUR, counted(off)),
    step("reading", from + first, from + first + 3 * HOUR, { n: 1, ...counted(first) }),
    step("reading", from + second, from + second + 3 * HOUR, { n: 2, ...counted(second) }),
  ];
};

/**
 * CP2 to CP5 (common practice, no source): colour Friday 10:30, kit on by Sunday 10:30, off Tuesday 10:30, looks Tuesday
 * 11:00 and Thursday 10:30; posted by Friday 16:30 of CP6.
 */
export const homeSteps = (recorded = false): readonly Step[] => [
  step("screening", at("2026-11-12T16:30:00Z"), at("2026-11-26T16:30:00Z"), { rule: rule("PT24H") }),
  step("shipping", at("2026-11-27T09:00:00Z"), at("2026-11-27T16:30:00Z")),
  step("arrival", at("2026-12-05T00:00:00Z"), at("2026-12-05T18:00:00Z")),
  step("application", at("2026-12-06T08:00:00Z"), PUT_ON, { rule: rule("PT120H") }),
  ...wornFrom(PUT_ON, recorded),
  step("result", COLOUR - 24 * HOUR, at("2026-12-10T17:30:00Z")),
];

/** CP1 (common practice, no source): colour Friday 10:30, walk-in test on by Wednesday 10:30. */
export const salonSteps = (): readonly Step[] => {
  const on = COLOUR - 48 * HOUR;
  const counted = { from: on, after: 48 * HOUR, recorded: false };
  return [
    step("screening", on - 336 * HOUR, on),
    step("application", at("2026-12-09T09:00:00Z"), on, { rule: rule("PT48H", "salon-48h") }),
    step("reading", COLOUR, COLOUR, { n: 1, counted }),
    step("result", COLOUR, COLOUR),
  ];
};

const rule = (duration: string, protocol = "home-kit-120h"): Step["rule"] => ({
  protocol,
  duration,
  source: "common practice, no source",
});

export const planOf = (standing: Standing, steps: readonly Step[], more: Partial<Plan> = {}): Plan => ({
  asOf: at("2026-11-10T09:00:00Z"),
  booking: {
    uid: "b1",
    start: COLOUR,
    end: COLOUR + 2 * HOUR,
    summary: "Permanent colour - Marit Tunnock",
    service: "Permanent colour",
    diary: "main",
    client: { id: "c1", name: "Marit Tunnock" },
    cancelled: standing === "cancelled",
  },
  route: steps.some(({ kind }) => kind === "shipping") ? "home-kit" : "in-salon",
  standing,
  why: [],
  steps,
  routes: [],
  earliest: null,
  alarm: null,
  leftRoute: "home-kit",
  restsOn: null,
  leftBehind: [],
  applied: false,
  next: null,
  ...more,
});

/** A walk-in test that has taken over from a posted kit. */
export const fellOver = (): Plan =>
  planOf("due", salonSteps(), { asOf: at("2026-12-07T12:00:00Z"), leftBehind: wornFrom(PUT_ON, false) });

export const setDone = (steps: readonly Step[], ...kinds: readonly StepKind[]): readonly Step[] =>
  steps.map((each) => (kinds.includes(each.kind) ? { ...each, state: "done" } : each));

export const STAMPS: EventStamps = {
  created: at("2026-11-01T08:00:00Z"),
  lastModified: at("2026-11-02T08:00:00Z"),
  sequence: 1,
};

export const HEAD: FeedHead = {
  name: "Skin test, Juniper Lane",
  description: "What to do before your colour",
  url: PAGE,
  language: "en-GB",
  refreshMinutes: 60,
};

export const contentAt = (from: Instant, to: Instant, more: Partial<EventContent> = {}): EventContent => ({
  uid: "b1|application|-",
  kind: "application",
  time: { allDay: false, from, to },
  summary: "Put your skin test on by Sun 10:30",
  description: "One.\n\nTwo.",
  url: PAGE,
  before: { uid: "b1|colour|-", gap: "PT48H" },
  alarms: [],
  task: { due: null, done: false },
  cancelled: false,
  ...more,
});
