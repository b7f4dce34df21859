/** Expected failures of a salon, as values with facts. web/problems.ts gives each its words and its HTTP status. */
import type { Refusal } from "../plan/types.ts";

export type Fault =
  | { readonly code: "no-such-salon" }
  | { readonly code: "settings-refused"; readonly refusals: readonly Refusal[] }
  | { readonly code: "settings-changed-meanwhile" }
  | { readonly code: "no-such-diary"; readonly known: readonly string[] }
  | { readonly code: "diary-not-added" }
  | { readonly code: "diary-is-pulled"; readonly diary: string }
  | { readonly code: "nothing-held"; readonly diary: string }
  | { readonly code: "another-held"; readonly diary: string }
  | { readonly code: "no-such-client" }
  | { readonly code: "no-such-other-client" }
  | { readonly code: "clients-are-one" }
  | { readonly code: "client-is-erased" }
  | { readonly code: "received-out-of-range" }
  | { readonly code: "no-such-request" }
  | { readonly code: "no-such-booking" }
  | { readonly code: "no-such-record" }
  | { readonly code: "no-such-settings"; readonly newest: number }
  | { readonly code: "no-such-appointment" }
  | { readonly code: "record-refused"; readonly refusals: readonly Refusal[] }
  | { readonly code: "too-many-answers" }
  | { readonly code: "after-too-far" }
  | { readonly code: "questions-changed"; readonly given: number; readonly current: number }
  | { readonly code: "no-appointment-ahead" }
  | { readonly code: "not-an-appointment-ahead" }
  | { readonly code: "answers-refused"; readonly refusals: readonly Refusal[] }
  | { readonly code: "no-such-entry" }
  | { readonly code: "entry-not-answerable"; readonly ground: "all-day" | "not-certain" | "cancelled" }
  | { readonly code: "entry-answer-refused"; readonly refusals: readonly Refusal[] }
  | { readonly code: "answers-full" }
  | { readonly code: "idempotency-key-reused" }
  | { readonly code: "done-and-gone" }
  | { readonly code: "link-revoked" }
  | { readonly code: "link-unknown" };

export type Outcome<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly fault: Fault };

export const succeed = <Value>(value: Value): Outcome<Value> => ({ ok: true, value });
export const fail = (fault: Fault): { readonly ok: false; readonly fault: Fault } => ({ ok: false, fault });
