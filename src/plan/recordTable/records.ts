/**
 * The records that the table tries in every state: one of every kind, and of every outcome and ground that counting.md 23
 * and 24 tell apart. Says what each holds and when it happened; never what comes of it.
 */
import { HOUR, type Instant } from "../../time/instant.ts";
import type { Fact } from "../types.ts";
import { type GivenRecord, lastApplied, STOP_ID, type TableState } from "./states.ts";

export interface TableRecord {
  readonly says: string;
  /** The record in a state; it is kept at the state's moment or, if that is later, when it happens. */
  readonly write: (state: TableState) => GivenRecord;
}

const now = (says: string, kind: Fact["kind"], more: Partial<Fact> = {}): TableRecord => ({
  says,
  write: (state) => ({ kind, at: state.now, ...more }),
});
const screened = (says: string, outcome: Fact["outcome"], reason: string | null = null): TableRecord =>
  now(says, "screened", { outcome, reason });
const when = (
  says: string,
  kind: Fact["kind"],
  happens: (state: TableState) => Instant,
  more: Partial<Fact> = {},
): TableRecord => ({ says, write: (state) => ({ kind, at: happens(state), ...more }) });
const applied = (says: string, happens: (state: TableState) => Instant): TableRecord => ({
  says,
  write: (state) => ({ kind: "applied", at: happens(state), route: state.route }),
});

/** Every record, by its name. */
export const RECORDS = {
  pass: screened("screened, pass", "pass"),
  "test-needed": screened("screened, test-needed", "test-needed"),
  "under-16": screened("screened, do-not-colour: under-16", "do-not-colour", "under-16"),
  "past-reaction": screened("screened, do-not-colour: past-reaction", "do-not-colour", "past-reaction"),
  "do-not-colour": screened("screened, do-not-colour: other", "do-not-colour", "other"),
  posted: now("posted", "posted"),
  arrived: now("arrived", "arrived"),
  applied: applied(
    "applied: a kit in hand or under way, else at the salon; at the last second that counts if now is later",
    (state) => Math.min(state.now, lastApplied(state.route)),
  ),
  "applied-too-late": applied(
    "applied, the same, an hour after the last second that counts",
    (state) => lastApplied(state.route) + HOUR,
  ),
  removed: when("removed as soon as it was worn long enough", "removed", (state) => state.wornAt ?? state.now),
  "removed-early": when("removed an hour before that", "removed", (state) =>
    state.wornAt === null ? state.now : state.wornAt - HOUR,
  ),
  clear: when("read, clear: the next look, once it has opened", "read", (state) => state.look?.inTime ?? state.now, {
    outcome: "clear",
  }),
  "clear-too-soon": when(
    "read, clear: a minute before it opened (of the first look, where none is left)",
    "read",
    (state) => state.look?.tooSoon ?? state.now,
    { outcome: "clear" },
  ),
  "not-sure": when("read, not-sure: at that look", "read", (state) => state.look?.inTime ?? state.now, {
    outcome: "not-sure",
  }),
  reaction: now("read, reaction: at once", "read", { outcome: "reaction" }),
  reacted: now("reacted, by the client's link", "reacted", { via: "client-link" }),
  confirmed: now("confirmed by the salon", "confirmed"),
  "confirmed-by-link": now("confirmed by the client's link", "confirmed", { via: "client-link" }),
  route: now("route: in-salon", "route", { route: "in-salon" }),
  note: now("note", "note", { note: "spoken to her" }),
  correction: now("correction of the newest record, without a reason", "correction"),
  "correction-of-stop-with-reason": now("correction of the stop, with a reason", "correction", {
    corrects: STOP_ID,
    reason: "another client's answer",
  }),
  "correction-of-stop": now("correction of the stop, without a reason", "correction", { corrects: STOP_ID }),
  "correction-by-link": now("correction by the client's link", "correction", { via: "client-link" }),
} as const satisfies Record<string, TableRecord>;
export type RecordName = keyof typeof RECORDS;
