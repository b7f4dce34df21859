/** The door for stored rows: what comes back from storage is checked before it is believed. */
import * as z from "zod";
import { ANSWERED_AS, type EntryAnswer } from "../diary/answers.ts";
import { SAID } from "../diary/readWords.ts";
import { EVERYWHERE } from "../diary/roughSpan.ts";
import { EVENT_KINDS } from "../feed/types.ts";
import { ANSWERS, GROUNDS, OUTCOMES, QUESTION_OUTCOMES, RECORD_KINDS, ROUTES } from "../plan/types.ts";
import type { Block, Sorted } from "../diary/types.ts";
import type { BlockRead } from "./blockReads.ts";
import {
  type Booking,
  type Client,
  type ClientDeed,
  type Consent,
  type Diary,
  type DiaryTest,
  type ErasedBlock,
  NO_CIRCUMSTANCES,
  type QuestionsShown,
  REACTION_HEADINGS,
  type ReactionReport,
  type Recorded,
  REQUEST_KINDS,
  type Screening,
  type StoredEvent,
} from "./types.ts";

const instant = z.number().int();
const why = z.object({ code: z.string(), text: z.string() });

const client = z.object({
  id: z.string(),
  number: z.number().int().positive(),
  name: z.string(),
  email: z.string().nullable(),
  phone: z.string().nullable(),
  generation: z.number().int(),
  confirmed: z.boolean(),
  joined: z.string().nullable().default(null),
  via: z.string().nullable().default(null),
  took: z
    .array(
      z.object({
        at: instant,
        from: z.string(),
        bookings: z.array(z.string()),
        records: z.array(z.string()),
        screenings: z.array(z.string()),
      }),
    )
    .default([]),
  apart: z.array(z.string()).default([]),
  parted: z.array(z.string()).default([]),
  erasing: z.object({ at: instant, evidence: z.boolean() }).nullable().default(null),
  erased: instant.nullable().default(null),
  since: instant.default(0),
  forget: instant.nullable().default(null),
}) satisfies z.ZodType<Client>;

const bookingRow = z.object({
  uid: z.string(),
  key: z.string(),
  diary: z.string(),
  client: z.string(),
  under: z.string().optional(),
  start: instant,
  end: instant.nullable(),
  summary: z.string(),
  service: z.string(),
  firstSeen: instant,
  cancelledAt: instant.nullable(),
  turned: z.object({ at: instant, from: instant.nullable() }).nullable().default(null),
  unreadSince: instant.nullable().default(null),
  next: instant.nullable(),
  said: z.object({ sequence: z.number().int(), lastModified: instant }).nullable().default(null),
});

/** Before clients could be joined, a booking was always of the client whom the diary names. */
const booking = bookingRow.transform((row): Booking => ({ ...row, under: row.under ?? row.client }));

const rule = z.object({
  protocol: z.string().nullable(),
  duration: z.string().nullable(),
  source: z.string().nullable(),
});

const circumstances = z.object({
  zone: z.string().nullable(),
  settings: z.number().int().nullable(),
  rule: rule.nullable(),
  questions: z.number().int().nullable(),
  words: z.string().nullable(),
  start: instant.nullable().default(null),
});

const reaction = z
  .record(z.string(), z.string().nullable())
  .transform(
    (told): ReactionReport =>
      Object.fromEntries(REACTION_HEADINGS.map((heading) => [heading, told[heading] ?? null])) as ReactionReport,
  );

const fact = z.object({
  id: z.string(),
  client: z.string().nullable(),
  booking: z.string().nullable(),
  kind: z.enum(RECORD_KINDS),
  at: instant,
  recorded: instant,
  outcome: z.enum(OUTCOMES).nullable(),
  route: z.enum(ROUTES).nullable(),
  by: z.string().nullable(),
  via: z.enum(["desk", "client-link", "api"]),
  product: z.string().nullable(),
  shade: z.number().nullable(),
  batch: z.string().nullable(),
  site: z.string().nullable(),
  photo: z.string().nullable(),
  reason: z.string().nullable(),
  note: z.string().nullable(),
  corrects: z.string().nullable(),
  circumstances: circumstances.default(NO_CIRCUMSTANCES),
  reaction: reaction.nullable().default(null),
  isLeft: z.boolean().optional(),
}) satisfies z.ZodType<Recorded>;

const deed = z.object({
  id: z.string(),
  client: z.string(),
  kind: z.enum(["added", "confirmed", "joined", "split", "apart", "request", "answered", "erasing", "acknowledged"]),
  at: instant,
  by: z.string().nullable(),
  via: z.enum(["desk", "client-link", "api"]),
  other: z.string().nullable(),
  bookings: z.array(z.string()),
  reason: z.string().nullable(),
  request: z.object({ what: z.enum(REQUEST_KINDS), received: z.number().int(), due: z.number().int() }).nullable(),
}) satisfies z.ZodType<ClientDeed>;

const test = z.object({
  key: z.string(),
  diary: z.string(),
  name: z.string(),
  email: z.string().nullable(),
  phone: z.string().nullable(),
  start: instant,
  end: instant.nullable(),
}) satisfies z.ZodType<DiaryTest>;

const questions = z.object({
  version: z.number().int().positive(),
  from: instant,
  language: z.string(),
  consent: z.string(),
  questions: z.array(
    z.object({
      id: z.string(),
      text: z.string(),
      yes: z.enum(QUESTION_OUTCOMES),
      ground: z.enum(GROUNDS).nullable(),
      source: z.string(),
    }),
  ),
}) satisfies z.ZodType<QuestionsShown>;

const screening = z.object({
  id: z.string(),
  client: z.string(),
  booking: z.string(),
  at: instant,
  version: z.number().int(),
  answers: z.record(z.string(), z.enum(ANSWERS)).nullable(),
  withdrawn: instant.nullable(),
  outcome: z.enum(OUTCOMES).nullable(),
  before: z.number().int(),
  records: z.array(z.string()),
  via: z.enum(["desk", "client-link", "api"]),
}) satisfies z.ZodType<Screening>;

const consent = z.object({
  id: z.string(),
  client: z.string(),
  given: z.boolean(),
  at: instant,
  words: z.string().nullable(),
  via: z.enum(["desk", "client-link", "api"]),
}) satisfies z.ZodType<Consent>;

const content = z.object({
  uid: z.string(),
  kind: z.enum(EVENT_KINDS),
  time: z.discriminatedUnion("allDay", [
    z.object({ allDay: z.literal(false), from: instant, to: instant }),
    z.object({ allDay: z.literal(true), from: z.number().int(), to: z.number().int() }),
  ]),
  summary: z.string(),
  description: z.string(),
  url: z.string().nullable(),
  before: z.object({ uid: z.string(), gap: z.string().nullable() }).nullable(),
  alarms: z.array(z.object({ uid: z.string(), before: z.number().int() })).default([]),
  task: z.object({ due: instant.nullable(), done: z.boolean() }).default({ due: null, done: false }),
  cancelled: z.boolean(),
}) satisfies z.ZodType<StoredEvent["content"]>;

const eventRow = z.object({
  audience: z.string(),
  booking: z.string().nullable(),
  who: z.enum(["salon", "client"]),
  service: z.string().nullable(),
  content,
  stamps: z.object({ created: instant, lastModified: instant, sequence: z.number().int() }),
  timed: instant.optional(),
  expires: instant,
  shown: z.boolean(),
});

/** Before it was kept since when an event stands at its time: since it was first said, as far as is known. */
const event = eventRow.transform((row): StoredEvent => ({ ...row, timed: row.timed ?? row.stamps.created }));

const report = z.object({
  name: z.string(),
  at: instant,
  status: z.enum(["read", "unchanged", "held", "refused", "never-read"]),
  reason: why.nullable(),
  counts: z.record(z.string(), z.number()),
  skipped: z.array(
    z.object({ entry: z.string(), uid: z.string(), start: z.string(), reason: z.string(), text: z.string() }),
  ),
  unsorted: z.array(
    z.object({
      entry: z.string(),
      uid: z.string(),
      start: z.string(),
      summary: z.string(),
      why,
      nearest: z.string().nullable(),
    }),
  ),
  unclear: z
    .array(
      z.object({
        booking: z.string(),
        start: z.string(),
        text: z.string(),
        candidates: z.array(z.object({ uid: z.string(), start: z.string() })),
      }),
    )
    .default([]),
  held: z.object({ since: instant, why }).nullable().default(null),
});

const diaryRow = z.object({
  name: z.string(),
  added: instant,
  begun: z.number().int(),
  appliedReading: z.number().int(),
  lastGood: instant.nullable(),
  report: report.nullable(),
  trouble: z.object({ since: instant, kind: z.enum(["unreadable", "held"]), why }).nullable(),
  held: z
    .object({
      since: instant,
      number: z.number().int(),
      why,
      marks: z.array(z.string()),
      raw: z.number().int(),
      calendarName: z.string().nullable(),
      producer: z.string().nullable(),
    })
    .nullish(),
  calendarName: z.string().nullable().default(null),
  producer: z.string().nullable().default(null),
  renewals: z.number().int().default(0),
  unreadSince: instant.nullable().default(null),
  etag: z.string().nullable(),
  lastModified: z.string().nullable(),
  nextPoll: instant.nullable(),
  restUntil: instant.nullable().default(null),
  failures: z.number().int(),
  horizonDay: z.number().int().nullable(),
});

/** Before `held` was a field of its own, the trouble alone said so: what is held still can be accepted. */
const heldOfOld = ({ trouble, begun, report: last }: z.infer<typeof diaryRow>): Diary["held"] =>
  trouble?.kind === "held"
    ? {
        since: trouble.since,
        number: begun,
        why: trouble.why,
        marks: [],
        raw: last?.counts["raw"] ?? 0,
        calendarName: null,
        producer: null,
      }
    : null;

const diary = diaryRow.transform(
  (row): Diary => ({ ...row, held: row.held === undefined ? heldOfOld(row) : row.held }),
);

const entry = z.object({
  key: z.string(),
  uid: z.string(),
  recurrenceId: z.string().nullable(),
  start: instant.nullable(),
  date: z.number().int().nullable(),
  end: instant.nullable(),
  summary: z.string(),
  description: z.string(),
  location: z.string(),
  attendees: z.array(z.object({ name: z.string(), email: z.string().nullable(), phone: z.string().nullable() })),
  cancelled: z.boolean(),
});

const skippedEvent = z.object({
  uid: z.string(),
  recurrenceId: z.string().nullable(),
  start: z.string(),
  reason: z.string(),
  text: z.string(),
});

const person = z.object({ name: z.string(), email: z.string().nullable(), phone: z.string().nullable() });

const answer = z.object({
  id: z.string(),
  diary: z.string(),
  uid: z.string(),
  key: z.string(),
  recurrenceId: z.string().nullable(),
  pinned: z.number().int().nullable(),
  title: z.string(),
  said: z.enum(SAID),
  carried: z.string().nullable(),
  as: z.enum(ANSWERED_AS),
  service: z.string().nullable(),
  client: person.nullable(),
  phrase: z.string(),
  first: instant,
  at: instant,
}) satisfies z.ZodType<EntryAnswer>;

const answered = z.object({ answer: z.string(), isLike: z.boolean() }).optional();

const sorted = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("booking"), service: z.string(), client: person, answered }),
  z.object({ kind: z.literal("test"), client: person, answered }),
  z.object({ kind: z.literal("not-colour"), answered }),
  z.object({ kind: z.literal("unsorted"), why, nearest: z.string().nullable() }),
]) satisfies z.ZodType<Sorted>;

const read = z.object({
  entries: z.array(z.object({ entry, sorted })),
  skipped: z.array(skippedEvent),
}) satisfies z.ZodType<Pick<BlockRead, "entries" | "skipped">>;

const blockText = z
  .object({
    uid: z.string(),
    hash: z.string(),
    span: z.object({ first: z.number().int(), last: z.number().int() }).default(EVERYWHERE),
    count: z.number().int().optional(),
    events: z.array(z.string()),
    zones: z.array(z.object({ tzid: z.string(), text: z.string() })),
  })
  .transform((block): Block => ({ ...block, count: block.count ?? block.events.length }));

/** Up to schema 2 a block's row held what it read as too. */
const block = z.union([blockText, z.object({ block: blockText }).transform((old) => old.block)]);

const said = z.object({ sequence: z.number().int(), lastModified: instant }).nullable().default(null);

const erased = z.object({ until: instant, said }) satisfies z.ZodType<ErasedBlock>;

export const rows = {
  client,
  booking,
  fact,
  deed,
  test,
  questions,
  screening,
  consent,
  erased,
  answer,
  event,
  diary,
  block,
  read,
};
