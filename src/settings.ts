/**
 * A salon's settings: the door they come in by, and every default. DEVELOPERS.md gives each default's reason.
 * Shape and spelling are checked here; what only the arithmetic can refuse is refused by plan/rules.ts.
 */
import * as z from "zod";
import {
  DIARIES_MAX,
  NOTE_MAX,
  POLL_MINUTES_MAX,
  POLL_MINUTES_MIN,
  QUESTIONS_MAX,
  TEXT_MAX,
  WORDS_MAX,
} from "./bounds.ts";
import { GROUNDS, QUESTION_OUTCOMES } from "./plan/types.ts";
import { Zone } from "./time/zone.ts";
import { DEFAULT_NOT_COLOUR, DEFAULT_SERVICES, DEFAULT_TEST_WORDS } from "./tradeWords.ts";

const text = z.string().trim().min(1).max(TEXT_MAX);
const note = z.string().trim().max(NOTE_MAX);
const words = z.array(text).max(WORDS_MAX);
/** Any text here; plan/rules.ts says what is wrong with a duration, a span or a date, with its remedy. */
const written = z.string().max(TEXT_MAX);

const weekdayNames = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"] as const;
const weekday = z.enum(weekdayNames);
export type WeekdayName = (typeof weekdayNames)[number];
export const WEEKDAYS: readonly WeekdayName[] = weekdayNames;

const source = z.strictObject({
  title: text.optional(),
  year: z.number().int().min(1900).max(2100).optional(),
  note: note.optional(),
});

const protocol = z.strictObject({
  lead: z.strictObject({
    least: written,
    most: written.nullable().default(null),
    from: z.enum(["application", "removal"]).default("application"),
  }),
  wear: written.nullable().default(null),
  removeWithin: written.optional(),
  readings: z.array(z.strictObject({ after: written, within: written.optional() })).max(10),
  source: source.optional(),
});
export type ProtocolSettings = z.infer<typeof protocol>;

const onFile = z.strictObject({
  months: z.number().int().min(1).max(120).nullable().default(null),
  product: z.enum(["same", "any"]).default("any"),
  shade: z.enum(["not-darker", "any"]).default("any"),
});

const test = z.strictObject({
  route: z.enum(["in-salon", "home-kit"]),
  protocol: z.union([text, z.array(text).min(1).max(10)]),
  kit: z
    .strictObject({
      name: text.nullable().default(null),
      instructions: note.nullable().default(null),
      ownColour: z.boolean().default(false),
    })
    .prefault({}),
  /** Absent: rule 25's default for the protocol; null: every colour needs a new test. */
  onFile: onFile.nullable().optional(),
  screening: z.strictObject({ margin: written.optional(), opens: written.default("PT336H") }).prefault({}),
});

const diary = z.strictObject({
  name: text.regex(/^[^/\\?#%\p{Cc}]+$/u, "a diary's name stands in addresses: no / \\ ? # %"),
  url: z.string().max(2_000).nullable().default(null),
  pollMinutes: z.number().int().min(POLL_MINUTES_MIN).max(POLL_MINUTES_MAX).default(15),
});
export type DiarySettings = z.infer<typeof diary>;

const service = z.strictObject({
  name: text,
  words: words.min(1),
  product: text.nullable().default(null),
  shade: z.number().min(1).max(10).nullable().default(null),
});
export type ServiceSettings = z.infer<typeof service>;

const question = z.strictObject({
  id: z.string().regex(/^[a-z0-9][a-z0-9-]{0,39}$/, "small letters, digits and hyphens, at most 40"),
  text: note.min(1),
  yes: z.enum(QUESTION_OUTCOMES),
  /** Of a `do-not-colour` only; absent: `other`. */
  ground: z.enum(GROUNDS).optional(),
  source: text.optional(),
});

const spans = z.array(written).max(20);

export const settingsSchema = z.strictObject({
  name: text,
  zone: text
    .refine((name) => Zone.named(name) !== undefined, {
      error: "no IANA time zone has this name; write one such as Europe/London or America/New_York",
    })
    .transform((name) => Zone.named(name)?.name ?? name),
  country: z
    .string()
    .regex(/^[A-Z]{2}$/, "two capital letters of ISO 3166, such as GB")
    .nullable()
    .default(null),
  language: z.enum(["en-GB", "en-US"]).default("en-GB"),
  contact: z
    .strictObject({
      phone: text.nullable().default(null),
      email: text.nullable().default(null),
      address: note.nullable().default(null),
    })
    .prefault({}),
  staff: words.default([]),
  diaries: z
    .array(diary)
    .min(1)
    .max(DIARIES_MAX)
    .refine((list) => new Set(list.map((each) => each.name)).size === list.length, {
      error: "two diaries have one name; give each its own",
    })
    .default([{ name: "main", url: null, pollMinutes: 15 }]),
  services: z
    .array(service)
    .min(1)
    .max(WORDS_MAX)
    .refine((list) => new Set(list.map((each) => each.name)).size === list.length, {
      error: "two services have one name; give each its own",
    })
    .default(DEFAULT_SERVICES),
  notColour: words.default(DEFAULT_NOT_COLOUR),
  testWords: words.default(DEFAULT_TEST_WORDS),
  clientFrom: z.array(text).min(1).max(20).default(["attendee", "{service} - {client}", "{client} - {service}"]),
  tests: z.array(test).min(1).max(2),
  protocols: z.record(text, protocol).default({}),
  /** Null: the label's warnings and the usual questions; a list: the label's warnings and the salon's own. */
  questions: z
    .array(question)
    .min(1)
    .max(QUESTIONS_MAX)
    .refine((list) => new Set(list.map((each) => each.id)).size === list.length, {
      error: "two questions have one id; give each its own",
    })
    .nullable()
    .default(null),
  opening: z
    .strictObject({
      mon: spans.optional(),
      tue: spans.optional(),
      wed: spans.optional(),
      thu: spans.optional(),
      fri: spans.optional(),
      sat: spans.optional(),
      sun: spans.optional(),
      holiday: spans.optional(),
    })
    .nullable()
    .default(null),
  lastWalkIn: written.default("PT30M"),
  /** `2026-12-24/2027-01-02` or one date; both ends are closed. */
  closed: z.array(written).max(WORDS_MAX).default([]),
  /** Absent: the salon's country. `country: null`: no country's holidays, only `add`. */
  holidays: z
    .strictObject({
      country: z
        .string()
        .regex(/^[A-Z]{2}$/)
        .nullable()
        .optional(),
      region: text.nullable().default(null),
      add: z.array(written).max(WORDS_MAX).default([]),
    })
    .nullable()
    .optional(),
  clientHours: written.default("08:00-21:00"),
  post: z
    .strictObject({
      collection: z.array(weekday).min(1).max(7).default(["mon", "tue", "wed", "thu", "fri"]),
      lastCollection: written.default("16:30"),
      delivery: z.array(weekday).min(1).max(7).default(["mon", "tue", "wed", "thu", "fri", "sat"]),
      deliveredBy: written.default("18:00"),
      transit: z.number().int().min(1).max(60).default(3),
      count: z.enum(["delivery", "calendar"]).default("delivery"),
      closed: z.array(written).max(WORDS_MAX).default([]),
      holidays: z.boolean().default(true),
    })
    .prefault({}),
  show: z.strictObject({ clients: z.enum(["initials", "names"]).default("initials") }).prefault({}),
  retention: z.strictObject({ evidence: written.default("P6Y"), rest: written.default("P2Y") }).prefault({}),
});

/** Settings with every default filled in. */
export type Settings = z.infer<typeof settingsSchema>;
export type TestSettings = Settings["tests"][number];
