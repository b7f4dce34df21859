/** The doors for requests: every body and query of the outward contract. Unknown fields are refused by name. */
import * as z from "zod";
import { EARLIEST_YEAR, NOTE_MAX, PAGE_DEFAULT, PAGE_MAX, TEXT_MAX } from "../bounds.ts";
import { PRESETS } from "../plan/protocols.ts";
import { OUTCOMES, RECORD_KINDS, ROUTES } from "../plan/types.ts";
import { ANSWERED_AS } from "../diary/answers.ts";
import { ENTRY_STATES, type EntryCursor } from "../salon/entries.ts";
import type { FactDraft } from "../salon/records.ts";
import { REACTION_HEADINGS, type ReactionReport } from "../salon/types.ts";
import type { PlanBound, PlanCursor } from "../salon/plans.ts";
import { newClient } from "./clientDoors.ts";
import { optional, text, words } from "./fields.ts";
import { type Instant, parseDay, parseInstant, parseWall, type Wall, yearOf } from "../time/instant.ts";

const NEXT_WANTED = "must be the next of the page before; leave it out for the first";
const INSTANT_WANTED = "an instant with an offset, such as 2026-12-09T10:30:00Z";

const instant = z.string().transform((written, context): Instant => {
  const value = parseInstant(written);
  if (value !== undefined && yearOf(value) >= EARLIEST_YEAR) return value;
  const wanted = value === undefined ? INSTANT_WANTED : `in ${EARLIEST_YEAR} or later`;
  context.addIssue({ code: "custom", message: `must be ${wanted}` });
  return z.NEVER;
});

/** Under the headings of the form for serious undesirable effects; what is not known is left out. */
const reaction = z
  .strictObject(
    Object.fromEntries(REACTION_HEADINGS.map((heading) => [heading, optional(z.string().trim().min(1).max(NOTE_MAX))])),
  )
  // Where nothing is told under any heading, none is described.
  .transform((told) => (Object.values(told).some((each) => each !== null) ? (told as ReactionReport) : null));

const recordFields = {
  booking: optional(z.string().min(1).max(1_000)),
  kind: z.enum(RECORD_KINDS),
  outcome: optional(z.enum(OUTCOMES)),
  route: optional(z.enum(ROUTES)),
  product: optional(text),
  shade: optional(z.number().min(1).max(10)),
  batch: optional(text),
  site: optional(text),
  photo: words(2_000),
  reason: words(NOTE_MAX),
  note: words(NOTE_MAX),
  corrects: optional(text),
  reaction: optional(reaction),
};

/** `at` may be left out where the record is told as it happens; then it is now. */
const heldAt = { at: instant.optional() };
const told = {
  by: optional(text),
  via: z
    .enum(["desk", "client-link", "api"])
    .nullish()
    .transform((via) => via ?? ("api" as const)),
};

/** POST /api/salon/records. */
export const salonRecord = z.strictObject({
  ...recordFields,
  ...heldAt,
  ...told,
  client: optional(text),
  questions: optional(z.number().int().positive()),
  words: optional(z.string().trim().max(NOTE_MAX)),
});
/** What a client may tell through her link: never a screening, a confirmation or a correction. */
const clientKinds = z.enum(["arrived", "applied", "removed", "read", "reacted", "route"]);
/** POST /c/{link}/records as JSON: client, by and via are known. */
export const clientRecord = z.strictObject({ ...recordFields, ...heldAt, kind: clientKinds });

const blank = z.literal("").transform(() => undefined);

/** As a form's field for a local time sends it. */
export const localTime = z.string().transform((value, context): Wall => {
  const wall = parseWall(value);
  if (wall !== undefined && yearOf(wall) >= EARLIEST_YEAR) return wall;
  const wanted = wall === undefined ? "a local time such as 2026-12-09T10:30" : `in ${EARLIEST_YEAR} or later`;
  context.addIssue({ code: "custom", message: `must be ${wanted}` });
  return z.NEVER;
});

/** The same as a plain form, once blanks are gone: a local time may stand in `when`, read in the salon's zone. */
export const clientForm = clientRecord.extend({
  shade: optional(z.coerce.number().min(1).max(10)),
  when: localTime.optional(),
});

/** A form's fields without those that were left empty. */
export const filledFields = (fields: Readonly<Record<string, string>>): Readonly<Record<string, string>> =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value.trim() !== ""));

/** One of `records` in a count-back: it has no client, and must say when it happened. */
const countBackRecord = z.strictObject({
  ...recordFields,
  id: text.optional(),
  at: instant,
  ...told,
  recorded: instant.optional(),
});

type RecordIn = Omit<z.infer<typeof clientRecord>, "kind"> &
  Pick<z.infer<typeof salonRecord>, "kind" | "by" | "via"> &
  Partial<Pick<z.infer<typeof salonRecord>, "questions" | "words">>;

/** A client's report as a record; which booking it is of, the salon says where she does not. */
export const reportOf = (record: z.infer<typeof clientRecord>, now: Instant): FactDraft =>
  factDraftOf({ ...record, by: null, via: "client-link" }, null, now);

/** The same from a form, its local time still to be read in the salon's zone. */
export const formReportOf = ({ when: _when, ...record }: z.infer<typeof clientForm>, now: Instant): FactDraft =>
  reportOf(record, now);

/** A record as the salon takes it. */
export const factDraftOf = (record: RecordIn, client: string | null, now: Instant): FactDraft => {
  const { at, ...rest } = record;
  return { questions: null, words: null, ...rest, at: at ?? now, client };
};

/** POST /api/count-back; `settings` go through their own door once the zone is known. */
export const countBackRequest = z.strictObject({
  start: z.string().max(40),
  zone: text.optional(),
  now: instant.optional(),
  settings: z.record(z.string(), z.unknown()).optional(),
  records: z.array(countBackRecord).max(1_000).default([]),
  uid: z.string().min(1).max(1_000).optional(),
  service: text.optional(),
});
export type CountBackRequest = z.infer<typeof countBackRequest>;

/** GET /count-back.ics. */
export const countBackFileQuery = z.strictObject({
  // A plus sign in a query is read as a space.
  start: z
    .string()
    .max(40)
    .transform((start) => start.replace(/ (?=\d\d:\d\d$)/, "+")),
  zone: text.optional(),
  test: optional(z.enum(Object.keys(PRESETS))),
  country: optional(
    z.string().regex(/^[A-Z]{2}$/, "must be two capital letters of ISO 3166; write them as in GB, IE or US"),
  ),
});

export const linkRequest = z.strictObject({ renew: z.boolean().default(false) });

const bound = z.string().transform((value, context): PlanBound => {
  const [day, at] = [parseDay(value), parseInstant(value)];
  if (day !== undefined) return { day };
  if (at !== undefined) return { at };
  context.addIssue({ code: "custom", message: `must be a date such as 2026-12-09, or ${INSTANT_WANTED}` });
  return z.NEVER;
});

/** GET /api/salon/plans. */
export const plansQuery = z.strictObject({
  from: optional(bound),
  to: optional(bound),
  client: optional(text),
  after: optional(
    z.string().transform((value, context): PlanCursor => {
      const [, start, uid] = /^(-?\d{1,12})\.([^]{1,1000})$/.exec(value) ?? [];
      if (start !== undefined && uid !== undefined) return { start: Number(start), uid };
      context.addIssue({ code: "custom", message: NEXT_WANTED });
      return z.NEVER;
    }),
  ),
  limit: z.coerce.number().int().min(1).max(PAGE_MAX).default(PAGE_DEFAULT),
});

/** A place in the list of plans, as `next` gives it. */
export const planCursor = ({ start, uid }: PlanCursor): string => `${start}.${uid}`;

/** GET /api/salon/earliest. */
export const earliestQuery = z.strictObject({ after: optional(bound) });

/** GET /api/salon/evidence. */
export const evidenceQuery = z.strictObject({
  booking: z.string().min(1).max(1_000),
  format: z.enum(["json", "html"]).optional(),
});

/** GET /api/salon/records. */
export const recordsQuery = z.strictObject({
  format: z.enum(["json", "csv"]).default("json"),
  booking: optional(z.string().min(1).max(1_000)),
  client: optional(text),
  after: optional(z.string().regex(/^r\d{1,12}$/, { error: NEXT_WANTED })),
  limit: z.coerce.number().int().min(1).max(PAGE_MAX).default(PAGE_DEFAULT),
});

/**
 * POST /c/{link}/screening. Which answers there must be, the salon knows: what stands under `answers` is looked at there,
 * so that nothing of it can be quoted back.
 */
export const screeningRequest = z.strictObject({
  version: z.number().int().positive(),
  consent: z.boolean().default(false),
  answers: z.unknown().optional(),
  booking: optional(z.string().min(1).max(1_000)),
});

/** A box that is ticked sends `on`; one that is not sends nothing. */
const ticked = z.enum(["true", "on", "false"]).transform((value) => value !== "false");

/** The same as a plain form, once `answersFrom` has gathered its answers. */
export const screeningForm = z.strictObject({
  version: z
    .string()
    .regex(/^\d{1,9}$/, "the number of the questions' version")
    .transform(Number),
  consent: ticked.default(false),
  answers: z.unknown().optional(),
  booking: blank.or(screeningRequest.shape.booking).transform((value) => value ?? null),
});

/** The fields of any form. */
export const formFields = z.record(z.string(), z.string());

/**
 * A form's fields with `answers.{id}` and `answers[{id}]` gathered under `answers`. Two answers to one question are none.
 */
export const answersFrom = (
  fields: Readonly<Record<string, string>>,
): Readonly<Record<string, unknown>> & { readonly answers: Readonly<Record<string, string | null>> } => {
  const answers = new Map<string, string | null>();
  const others = Object.entries(fields).filter(([name, value]) => {
    const id = /^answers(?:\.([^]*)|\[([^]*)\])$/.exec(name);
    const of = id?.[1] ?? id?.[2];
    if (of === undefined) return true;
    answers.set(of, answers.has(of) && answers.get(of) !== value ? null : value);
    return false;
  });
  return { ...Object.fromEntries(others), answers: Object.fromEntries(answers) };
};

/** POST /c/{link}/consent: an agreement is given beside the answers alone, where its words stand. */
export const consentRequest = z.strictObject({
  consent: z.literal(false, { error: "must be false: to agree, answer the questions" }),
});
export const consentForm = z.strictObject({
  consent: z
    .literal("false", { error: "must be false: to agree, answer the questions" })
    .transform(() => false as const),
});

/** GET /api/salon/screenings. */
export const screeningsQuery = z.strictObject({
  client: optional(text),
  booking: optional(z.string().min(1).max(1_000)),
  after: optional(z.string().regex(/^s\d{1,12}$/, { error: NEXT_WANTED })),
  limit: z.coerce.number().int().min(1).max(PAGE_MAX).default(PAGE_DEFAULT),
});

/** GET /api/salon/entries. */
export const entriesQuery = z.strictObject({
  state: optional(z.enum(ENTRY_STATES)),
  diary: optional(z.string().min(1).max(TEXT_MAX)),
  after: optional(
    z.string().transform((value, context): EntryCursor => {
      const [, place, id] = /^(\d{1,12})\.([0-9a-f]{20})$/.exec(value) ?? [];
      if (place !== undefined && id !== undefined) return { place: Number(place), id };
      context.addIssue({ code: "custom", message: NEXT_WANTED });
      return z.NEVER;
    }),
  ),
  limit: z.coerce.number().int().min(1).max(PAGE_MAX).default(PAGE_DEFAULT),
});

/** A place in the list of entries, as `next` gives it. */
export const entryCursor = ({ place, id }: EntryCursor): string => `${place}.${id}`;

/** PUT /api/salon/entries/{id}. Which services there are, the salon knows. */
export const entryAnswer = z.strictObject({
  as: z.enum(ANSWERED_AS),
  service: optional(text),
  client: optional(newClient),
});

/** Where a client's records are listed. */
export const clientRecordLocation = (client: string): string =>
  `/api/salon/records?client=${encodeURIComponent(client)}`;

/** GET /api/salon: of which version; records name the one they were told under. */
export const settingsQuery = z.strictObject({ version: optional(z.coerce.number().int().min(1)) });

/** What stands behind a call that can be tried first: PUT /api/salon, POST /api/salon/records/import. */
export const dryRunQuery = z
  .strictObject({
    "dry-run": z
      .enum(["", "true", "1"], { error: "must be written without a value; leave it out to do it" })
      .optional(),
  })
  .transform((query) => query["dry-run"] !== undefined);
/** What stands behind a call that changes something and takes no choice there. */
export const noQuery = z.strictObject({});
