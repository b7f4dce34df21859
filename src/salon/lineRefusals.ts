/** Why a line of an imported table is refused: what it names, the limit and the remedy, and never a cell of it. */
import { refusal } from "../plan/refusal.ts";

export const OF_NOBODY = refusal({
  code: "record-of-nobody",
  at: "client",
  value: null,
  limit: "given, or clientName, or booking",
  reason: "a record is of one person",
  remedy: "write her name, and an address or a telephone beside it",
});
export const UNKNOWN_CLIENT = refusal({
  code: "client-unknown",
  at: "client",
  value: null,
  limit: "the id of a client of this salon",
  reason: "a record is of one person",
  remedy: "write clientName, clientEmail and clientPhone instead",
});
export const OTHER_CLIENT = refusal({
  code: "client-of-another-name",
  at: "client",
  value: null,
  limit: "the id of a client of the name in clientName",
  reason: "a result under the wrong name is dangerous",
  remedy: "leave the id out, or the name",
});
export const OTHER_ADDRESS = refusal({
  code: "client-of-another-address",
  at: "client",
  value: null,
  limit: "the id of a client who has that clientEmail and clientPhone, where she has any",
  reason: "somebody else may have that name, and a result of hers is dangerous here",
  remedy: "leave the id out, or the address and telephone",
});
export const SEVERAL_CLIENTS = refusal({
  code: "client-of-several",
  at: "clientName",
  value: null,
  limit: "a name that tells which client is meant",
  reason: "several clients have this name and nothing here tells them apart",
  remedy: "write the client's id in client",
});
export const UNKNOWN_BOOKING = refusal({
  code: "booking-unknown",
  at: "booking",
  value: null,
  limit: "the uid of a booking of that client, or empty",
  reason: "a record belongs to an appointment that is known, or to none",
  remedy: "leave it empty for an earlier result",
});
export const OF_NO_LINE = refusal({
  code: "corrects-unknown",
  at: "corrects",
  value: null,
  limit: "the id of a line before it in this file, that was taken",
  reason: "a number of another table names another record here",
  remedy: "send the whole log, with its column id, or record the correction by itself",
});
export const OF_NO_BOOKING = refusal({
  code: "booking-missing",
  at: "booking",
  value: null,
  limit: "the uid of a booking of that client",
  reason: "posted, arrived, confirmed and route say nothing without an appointment",
  remedy: "write it, or leave the line out",
});
export const WITHOUT_ROUTE = refusal({
  code: "route-missing",
  at: "route",
  value: null,
  limit: "in-salon or home-kit in an earlier clear result",
  reason: "without the kind of test it counts for nothing",
  remedy: "write which kind of test it was",
});
