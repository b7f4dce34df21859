/** A salon in which nothing has happened yet. */
import type { Instant } from "../time/instant.ts";
import { FIRST_NUMBERS } from "./inTurn.ts";
import type { State } from "./types.ts";

export const emptyState = (at: Instant): State => ({
  settledTo: at,
  nextClient: 1,
  nextFact: 1,
  next: FIRST_NUMBERS,
  clients: new Map(),
  bookings: new Map(),
  facts: new Map(),
  deeds: new Map(),
  tests: new Map(),
  questions: new Map(),
  screenings: new Map(),
  consents: new Map(),
  erased: new Map(),
  answers: new Map(),
  events: new Map(),
  diaries: new Map(),
});
