/** The doors for what is pressed at the desk: records, and what a client was told. */
import * as z from "zod";
import { NOTE_MAX } from "../../bounds.ts";
import {
  type Ground,
  GROUNDS,
  OUTCOMES,
  type Outcome,
  RECORD_KINDS,
  type RecordKind,
  type RouteName,
  ROUTES,
} from "../../plan/types.ts";
import { CALL_REASONS } from "../../salon/deskCalls.ts";
import type { FactDraft } from "../../salon/records.ts";
import { REACTION_HEADINGS, type ReactionReport } from "../../salon/types.ts";
import type { Instant } from "../../time/instant.ts";
import { localTime } from "../doors.ts";
import { optional, text } from "../fields.ts";

/** What a pressed button says: see `choiceOf`. */
interface Choice {
  readonly kind: RecordKind;
  readonly outcome: Outcome | null;
  readonly route: RouteName | null;
  /** Of a do-not-colour. */
  readonly ground: Ground | null;
}

const among = <Word extends string>(words: readonly Word[], word: string | undefined): Word | null =>
  words.find((each) => each === word) ?? null;

const choice = z.string().transform((value, context): Choice => {
  const [kindWord, outcome, route, ground] = value.split(" ");
  const kind = among(RECORD_KINDS, kindWord);
  const of = { outcome: among(OUTCOMES, outcome), route: among(ROUTES, route), ground: among(GROUNDS, ground) };
  if (kind !== null) return { kind, ...of };
  context.addIssue({ code: "custom", message: "must be what a button of the page says; go back and press one" });
  return z.NEVER;
});

const ref = z.string().regex(/^[0-9a-f-]{36}$/, { error: "must be the name of an appointment; open its page again" });
const long = optional(z.string().trim().max(NOTE_MAX));

/** POST /desk/records. */
export const recordPressed = z.strictObject({
  choice,
  booking: ref.nullish().transform((value) => value ?? null),
  client: optional(text),
  when: localTime.optional(),
  product: optional(text),
  shade: optional(z.coerce.number().min(1).max(10)),
  batch: optional(text),
  site: optional(text),
  photo: long,
  reason: long,
  note: long,
  corrects: optional(z.string().regex(/^r\d{1,12}$/)),
  ...Object.fromEntries(REACTION_HEADINGS.map((heading) => [heading, long])),
});

/** POST /desk/told. */
export const toldPressed = z.strictObject({
  booking: ref,
  how: z.enum(["sent", "spoken"]),
  words: z.string().trim().min(1).max(NOTE_MAX),
  /** Codes of what she was told about, parted by spaces. */
  reason: z.string().transform((value) => CALL_REASONS.filter((code) => value.split(" ").includes(code))),
});

type Told = Partial<Omit<FactDraft, "kind" | "outcome" | "route" | "reaction">> & {
  readonly choice: Choice;
} & Partial<ReactionReport>;

/** A press as a record of now; which appointment it is of, and when, the salon says. */
export const draftOfPress = (told: Told, who: string | null, now: Instant): FactDraft => {
  const { ground, ...chosen } = told.choice;
  const headings = REACTION_HEADINGS.map((heading) => [heading, told[heading] ?? null] as const);
  return {
    ...chosen,
    client: told.client ?? null,
    booking: null,
    at: now,
    by: who,
    via: "desk",
    product: told.product ?? null,
    shade: told.shade ?? null,
    batch: told.batch ?? null,
    site: told.site ?? null,
    photo: told.photo ?? null,
    reason: ground ?? told.reason ?? null,
    note: told.note ?? null,
    corrects: told.corrects ?? null,
    words: null,
    questions: null,
    reaction: headings.some(([, value]) => value !== null) ? (Object.fromEntries(headings) as ReactionReport) : null,
  };
};
