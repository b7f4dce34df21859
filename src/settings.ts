/**
 * A salon's settings: the door they come in by, and every default. DEVELOPERS.md gives each default's reason.
 * Shape and spelling are checked here; what only the arithmetic can refuse is refused by plan/rules.ts.
 * Words of a refusal read "must be LIMIT; REMEDY", so that whoever shows them can put what stood there between the two.
 */
import * as z from "zod";
import {
  DIARIES_MAX,
  DIARY_URL_MAX,
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
/** A list's or a text's own words would stand for its bounds too, so that these need words of theirs. */
const atMost = (count: number, what: string) => `must be a list of at most ${count} ${what}; leave some out`;
const TOO_LONG = `must be text of at most ${TEXT_MAX} characters; shorten it`;

/** Any text here; plan/rules.ts says what is wrong with a duration, a span or a date, with its remedy. */
const writtenAs = (what: string, example: string) =>
  z.string(`must be ${what}, written as text; write one such as "${example}"`).max(TEXT_MAX, TOO_LONG);
const length = writtenAs("a length in exact hours", "PT48H");
const span = writtenAs("two times with a hyphen between them", "09:00-17:30");
const time = writtenAs("a time of day", "16:30");
const dates = writtenAs("a date, or two dates with a slash between them", "2026-12-24");
const period = writtenAs("a calendar period", "P6Y");

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
  lead: z.strictObject(
    {
      least: length,
      most: length.nullable().default(null),
      from: z.enum(["application", "removal"]).default("application"),
    },
    'must be an object in braces that says the least lead; write one such as {"least": "PT48H"}',
  ),
  wear: length.nullable().default(null),
  removeWithin: length.optional(),
  readings: z
    .array(
      z.strictObject(
        { after: length, within: length.optional() },
        'must be a look, an object in braces; write one such as {"after": "PT48H"}',
      ),
      'must be a list of looks in square brackets; write one such as [{"after": "PT48H"}]',
    )
    .max(10, atMost(10, "looks")),
  source: source.optional(),
});
export type ProtocolSettings = z.infer<typeof protocol>;

const onFile = z.strictObject({
  months: z.number().int().min(1).max(120).nullable().default(null),
  product: z.enum(["same", "any"]).default("any"),
  shade: z.enum(["not-darker", "any"]).default("any"),
});

const PROTOCOL_WANTED =
  'must be the name of a protocol, or a list of names in square brackets; write one such as "salon-48h"';
const TEST_WANTED = '{"route": "in-salon", "protocol": "salon-48h"}';

const test = z.strictObject(
  {
    route: z.enum(["in-salon", "home-kit"]),
    protocol: z.union([text, z.array(text).min(1).max(10)], PROTOCOL_WANTED),
    kit: z
      .strictObject({
        name: text.nullable().default(null),
        instructions: note.nullable().default(null),
        ownColour: z.boolean().default(false),
      })
      .prefault({}),
    /** Absent: rule 25's default for the protocol; null: every colour needs a new test. */
    onFile: onFile.nullable().optional(),
    screening: z.strictObject({ margin: length.optional(), opens: length.default("PT336H") }).prefault({}),
  },
  `must be a test, an object in braces; write one such as ${TEST_WANTED}`,
);

const diary = z.strictObject({
  name: text.regex(/^[^/\\?#%\p{Cc}]*$/u, {
    error: "must be a name without / \\ ? # % or control characters: it stands in addresses; write one such as main",
  }),
  /** Which addresses may be saved, salon/refuseAddresses.ts says: what is stored must still be read. */
  url: z.string().max(DIARY_URL_MAX).nullable().default(null),
  pollMinutes: z.number().int().min(POLL_MINUTES_MIN).max(POLL_MINUTES_MAX).default(15),
});
export type DiarySettings = z.infer<typeof diary>;

const SHADE_WANTED = "must be a depth from 1, darkest, to 10, lightest; write one between them";

const service = z.strictObject({
  name: text,
  words: words.min(1),
  product: text.nullable().default(null),
  shade: z.number().min(1, SHADE_WANTED).max(10, SHADE_WANTED).nullable().default(null),
});
export type ServiceSettings = z.infer<typeof service>;

const question = z.strictObject({
  id: z.string().regex(/^[a-z0-9][a-z0-9-]{0,39}$/, {
    error: "must be 1 to 40 small letters, digits and hyphens, no hyphen first; write one such as new-piercing",
  }),
  text: note.min(1),
  yes: z.enum(QUESTION_OUTCOMES),
  /** Of a `do-not-colour` only; absent: `other`. */
  ground: z.enum(GROUNDS).optional(),
  source: text.optional(),
});

const spans = z
  .array(span, 'must be a list of spans in square brackets; write one such as ["09:00-17:30"]')
  .max(20, atMost(20, "spans"));

const ZONE_WANTED = "must be the name of an IANA time zone; write one such as Europe/London or America/New_York";
const COUNTRY_WANTED = "must be two capital letters of ISO 3166; write them as in GB, IE or US";
const TESTS_WANTED = `must be a list of one or two tests in square brackets; write at least [${TEST_WANTED}]`;
const TESTS_TOO_MANY = "must be a list of at most two tests, one for each route; leave the others out";
const DAYS_WANTED = `must be a list of at least one of ${weekdayNames.join(", ")}; write one such as ["mon", "fri"]`;

const country = z.string().regex(/^[A-Z]{2}$/, COUNTRY_WANTED);
const postDays = z.array(weekday, DAYS_WANTED).min(1, DAYS_WANTED).max(7, atMost(7, "weekdays"));
const sameName = (things: string) => `must be a list in which no two ${things} have the same name; give each its own`;

export const settingsSchema = z.strictObject({
  name: text,
  zone: z
    .string(ZONE_WANTED)
    .trim()
    .max(TEXT_MAX)
    .refine((name) => Zone.named(name) !== undefined, { error: ZONE_WANTED })
    .transform((name) => Zone.named(name)?.name ?? name),
  country: country.nullable().default(null),
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
      error: sameName("diaries"),
    })
    .default([{ name: "main", url: null, pollMinutes: 15 }]),
  services: z
    .array(service)
    .min(1)
    .max(WORDS_MAX)
    .refine((list) => new Set(list.map((each) => each.name)).size === list.length, {
      error: sameName("services"),
    })
    .default(DEFAULT_SERVICES),
  notColour: words.default(DEFAULT_NOT_COLOUR),
  testWords: words.default(DEFAULT_TEST_WORDS),
  clientFrom: z.array(text).min(1).max(20).default(["attendee", "{service} - {client}", "{client} - {service}"]),
  tests: z.array(test, TESTS_WANTED).min(1, TESTS_WANTED).max(2, TESTS_TOO_MANY),
  protocols: z.record(text, protocol).default({}),
  /** Null: the label's warnings and the usual questions; a list: the label's warnings and the salon's own. */
  questions: z
    .array(question)
    .min(1)
    .max(QUESTIONS_MAX)
    .refine((list) => new Set(list.map((each) => each.id)).size === list.length, {
      error: "must be a list in which no two questions have the same id; give each its own",
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
  lastWalkIn: writtenAs("a length in exact hours", "PT30M").default("PT30M"),
  /** `2026-12-24/2027-01-02` or one date; both ends are closed. */
  closed: z.array(dates).max(WORDS_MAX).default([]),
  /** Absent: the salon's country. `country: null`: no country's holidays, only `add`. */
  holidays: z
    .strictObject({
      country: country.nullable().optional(),
      region: text.nullable().default(null),
      add: z.array(dates).max(WORDS_MAX).default([]),
    })
    .nullable()
    .optional(),
  clientHours: span.default("08:00-21:00"),
  post: z
    .strictObject({
      collection: postDays.default(["mon", "tue", "wed", "thu", "fri"]),
      lastCollection: time.default("16:30"),
      delivery: postDays.default(["mon", "tue", "wed", "thu", "fri", "sat"]),
      deliveredBy: time.default("18:00"),
      /** Any number here: plan/rules.ts says which (counting.md 14). */
      transit: z.number().default(3),
      count: z.enum(["delivery", "calendar"]).default("delivery"),
      closed: z.array(dates).max(WORDS_MAX).default([]),
      holidays: z.boolean().default(true),
    })
    .prefault({}),
  show: z
    .strictObject({
      clients: z.enum(["initials", "names"]).default("initials"),
      /** Of the SUMMARYs and the name of a client's feed; descriptions and pages are always plain. */
      words: z.enum(["plain", "discreet"]).default("plain"),
    })
    .prefault({}),
  retention: z.strictObject({ evidence: period.default("P6Y"), rest: period.default("P2Y") }).prefault({}),
});

/** Settings with every default filled in. */
export type Settings = z.infer<typeof settingsSchema>;
export type TestSettings = Settings["tests"][number];
