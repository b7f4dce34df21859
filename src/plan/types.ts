/** What a plan is made from and what it says. Instants are whole seconds; text is made at the doors. */
import type { Instant, Seconds } from "../time/instant.ts";

export const ROUTES = ["in-salon", "home-kit", "on-file"] as const;
export type RouteName = (typeof ROUTES)[number];
/** A route that makes a test of its own, and so may stand in `tests[]`. */
export type TestRoute = Exclude<RouteName, "on-file">;
export type StepKind =
  | "screening"
  | "shipping"
  | "arrival"
  | "application"
  | "removal"
  | "reading"
  | "result"
  | "rescreening";
export type Standing = "on-track" | "due" | "late" | "no-time" | "ready" | "stop" | "past" | "cancelled";
export type StepState = "planned" | "done" | "unrecorded" | "cancelled";
export const RECORD_KINDS = [
  "screened",
  "posted",
  "arrived",
  "applied",
  "removed",
  "read",
  "reacted",
  "confirmed",
  "route",
  "note",
  "correction",
] as const;
export type RecordKind = (typeof RECORD_KINDS)[number];
/** Of a `read`: the first three; of a `screened`: the others. */
export const OUTCOMES = ["clear", "reaction", "not-sure", "pass", "test-needed", "do-not-colour"] as const;
export type Outcome = (typeof OUTCOMES)[number];

/** A reason: `code` for machines, `text` for people. */
export interface Why {
  readonly code: string;
  readonly text: string;
}

/** An answer to a health question. */
export const ANSWERS = ["yes", "no", "not-sure"] as const;
export type Answer = (typeof ANSWERS)[number];

/** What a `yes` to a health question means. */
export const QUESTION_OUTCOMES = ["do-not-colour", "test-needed"] as const;
/** Why not to colour: it decides which bookings stop and what lifts it (counting.md 23 and 24). */
export const GROUNDS = ["under-16", "past-reaction", "other"] as const;
export type Ground = (typeof GROUNDS)[number];

export interface Question {
  readonly id: string;
  readonly text: string;
  readonly yes: (typeof QUESTION_OUTCOMES)[number];
  /** Of a `do-not-colour`; null where a `yes` asks for a test. */
  readonly ground: Ground | null;
  readonly source: string;
}

/** A fact that a person reported. Append-only. */
export interface Fact {
  readonly id: string;
  /** The client it is about; null in a count-back, which has one client. */
  readonly client: string | null;
  /** The booking it belongs to, by `booking.uid`; null where it belongs to none. */
  readonly booking: string | null;
  readonly kind: RecordKind;
  /** When it happened. */
  readonly at: Instant;
  /** When it was told. */
  readonly recorded: Instant;
  readonly outcome: Outcome | null;
  readonly route: RouteName | null;
  readonly by: string | null;
  readonly via: "desk" | "client-link" | "api";
  readonly product: string | null;
  readonly shade: number | null;
  readonly batch: string | null;
  readonly site: string | null;
  readonly photo: string | null;
  readonly reason: string | null;
  readonly note: string | null;
  /** The record this one sets aside; only for `correction`; null there means the newest earlier one (counting.md 24). */
  readonly corrects: string | null;
}

/** A colour appointment as the count-back sees it. */
export interface BookingFacts {
  readonly uid: string;
  readonly start: Instant;
  readonly end: Instant | null;
  readonly summary: string;
  /** The name of one of the settings' services. */
  readonly service: string;
  readonly diary: string | null;
  readonly client: { readonly id: string; readonly name: string } | null;
  readonly cancelled: boolean;
}

/** A skin test entered in the diary for a client: a plan, until somebody records that it went on. */
export interface TestAppointment {
  readonly start: Instant;
  readonly end: Instant | null;
}

export interface StepRule {
  readonly protocol: string | null;
  /** Exact hours of the rule that decided, `PT48H`; null where no length decides. */
  readonly duration: string | null;
  /** Title and year of the source, or "common practice, no source". */
  readonly source: string | null;
}

export interface Step {
  readonly uid: string;
  readonly kind: StepKind;
  /** The number of a reading, from 1; null for every other kind. */
  readonly n: number | null;
  readonly who: "salon" | "client";
  readonly opens: Instant;
  readonly due: Instant;
  readonly state: StepState;
  readonly rule: StepRule;
  /**
   * Removal and readings: what they count from (the planned or the recorded application) and by how much, so that
   * conditional words can be made. Not part of the outward plan.
   */
  readonly counted: { readonly from: Instant; readonly after: Seconds; readonly recorded: boolean } | null;
  /** An application that has its own time in the diary: its event stands there until then. Not part of the outward plan. */
  readonly booked: { readonly until: Instant } | null;
}

export interface RoutePlan {
  readonly route: RouteName;
  readonly fits: boolean;
  readonly until: Instant | null;
  readonly firstDue: Instant | null;
  readonly earliest: Instant | null;
  readonly why: Why;
}

export interface Plan {
  readonly asOf: Instant;
  readonly booking: BookingFacts;
  readonly route: RouteName | null;
  readonly standing: Standing;
  readonly why: readonly Why[];
  readonly steps: readonly Step[];
  readonly routes: readonly RoutePlan[];
  readonly earliest: { readonly start: Instant; readonly route: RouteName } | null;
  /**
   * A test that the plan has left though it may be on the skin (a kit that was posted or arrived, or one that went on while
   * an earlier result covers the booking): its removal and readings; else empty. Not part of the outward plan.
   */
  readonly leftBehind: readonly Step[];
  /** Whose test that is. */
  readonly leftRoute: TestRoute;
  /**
   * What somebody must hear of besides the steps, and since when it is known: a stop, that the test that is on does not
   * suffice any more, or that she may be somebody who must not be coloured. Null in every other case; once the start has passed a stop alone, of that booking. Not part of the outward plan.
   */
  readonly alarm: { readonly kind: "stop" | "new-test" | "who"; readonly since: Instant } | null;
  /** The record of the earlier test that this booking rests on, where its way is `on-file`; else null. Not part of the outward plan. */
  readonly restsOn: string | null;
  /** Whether an application that counts is recorded for this booking. Not part of the outward plan. */
  readonly applied: boolean;
  /** The earliest instant after `asOf` at which anything but `earliest` may differ; null where nothing will. */
  readonly next: Instant | null;
}

/** Why settings or a record are refused: the thing, its value, the limit and the remedy, and all four in one sentence. */
export interface Refusal {
  readonly code: string;
  /** Where it stands: `tests[0].protocol`, or the record's field. */
  readonly at: string;
  /** The value as written; null where there is none, or where it is a person's words. */
  readonly value: string | null;
  readonly limit: string;
  readonly remedy: string;
  readonly text: string;
}

/** A test of an earlier booking of the same client that is not over yet, for provisional cover (counting.md 25). */
export interface TestAhead {
  /** The earlier booking, by `booking.uid`, and its start. */
  readonly booking: string;
  readonly start: Instant;
  readonly route: TestRoute;
  /** Its recorded application, or the planned one's due. */
  readonly application: Instant;
  /** What that booking's service plans to test; an `applied` record of that booking says better. */
  readonly product: string | null;
  readonly shade: number | null;
}
