/** All that a client's plans are made from, gathered by client. Pure. */
import type { Fact, TestAppointment } from "../plan/types.ts";
import { type Instant, wholeMinute } from "../time/instant.ts";
import { byStart } from "./byStart.ts";
import { appointmentsByBooking } from "./appointments.ts";
import { Doubts } from "./Doubts.ts";
import { factsByClient, stopsCarried } from "./factsByClient.ts";
import { type Owners, ownersOf } from "./owners.ts";
import type { Booking, State } from "./types.ts";

export interface Matters {
  /** In order of their starts. */
  readonly bookings: readonly Booking[];
  readonly facts: readonly Fact[];
  /** Those among them that are another's, and stop the appointment they were told under: their ids. */
  readonly carried: ReadonlySet<string>;
  /** Tests in the diary by the booking each is for. */
  readonly appointments: ReadonlyMap<string, readonly TestAppointment[]>;
  /** When answers for a booking last left the decision to a person, by booking. */
  readonly undecided: ReadonlyMap<string, Instant>;
  /** Bookings of which something was recorded under another name that nobody has recorded again under the present one. */
  readonly toldOfAnother: ReadonlySet<string>;
  /** Since when somebody who may be she has a stop; null: nobody has. */
  readonly possibleStop: Instant | null;
}

/** What no correction has set aside: one of the same person's, whatever else a record names. */
const standing = (facts: ReadonlyMap<string, Fact>, { ofRecord }: Owners): readonly Fact[] => {
  const aside = new Set<string>();
  for (const fact of facts.values()) {
    const target = fact.kind === "correction" ? facts.get(fact.corrects ?? "") : undefined;
    if (target && ofRecord(target) === ofRecord(fact)) aside.add(target.id);
  }
  return aside.size === 0 ? [...facts.values()] : [...facts.values()].filter(({ id }) => !aside.has(id));
};

/**
 * Answers that wait for a person: nobody at the salon has told, after them, of a screening of that client and booking that
 * was made no earlier than they were, to the minute. What one client answered is nothing of another's.
 */
const undecidedByBooking = (
  state: Pick<State, "bookings" | "clients" | "facts" | "screenings">,
): ReadonlyMap<string, Instant> => {
  const found = new Map<string, Instant>();
  const open = [...state.screenings.values()].filter(({ outcome }) => outcome === null);
  if (open.length === 0) return found;
  const owners = ownersOf(state);
  const decisions = standing(state.facts, owners).filter(
    ({ kind, via }) => kind === "screened" && via !== "client-link",
  );
  for (const screening of open) {
    const { booking, at, before } = screening;
    const client = owners.ofScreening(screening);
    const isDecided = decisions.some(
      (fact) =>
        owners.ofRecord(fact) === client &&
        fact.booking === booking &&
        Number(fact.id.slice(1)) >= before &&
        fact.at >= wholeMinute(at),
    );
    if (!isDecided && state.bookings.get(booking)?.client === client) found.set(booking, at);
  }
  return found;
};

/** Kinds that tell of something done for one booking. */
const DONE: ReadonlySet<Fact["kind"]> = new Set(["screened", "posted", "arrived", "applied", "removed", "read"]);

const tellingOf = ({ booking, kind }: Fact): string => `${kind}\n${booking}`;

const toldOfAnother = (state: Pick<State, "bookings" | "clients" | "facts">): ReadonlySet<string> => {
  const { bookings, facts } = state;
  const owners = ownersOf(state);
  const done = standing(facts, owners).filter(({ kind }) => DONE.has(kind));
  const isOfPresent = (fact: Fact): boolean => bookings.get(fact.booking ?? "")?.client === owners.ofRecord(fact);
  const toldAgain = new Set(done.filter(isOfPresent).map(tellingOf));
  const left = done.filter((fact) => fact.client !== null && !isOfPresent(fact) && !toldAgain.has(tellingOf(fact)));
  return new Set(left.flatMap(({ booking }) => booking ?? []));
};

/**
 * What is known of each client who has a booking.
 * @param only clients to look at; undefined: all
 */
export const mattersByClient = (
  state: Pick<State, "clients" | "bookings" | "facts" | "tests" | "screenings">,
  only?: ReadonlySet<string>,
): ReadonlyMap<string, Matters> => {
  const factsOf = factsByClient(state);
  const appointments = appointmentsByBooking(state);
  const undecided = undecidedByBooking(state);
  const told = toldOfAnother(state);
  const owners = ownersOf(state);
  const doubts = new Doubts(state.clients, factsOf, stopsCarried(state));
  const isOfAnother = (fact: Fact, client: string): boolean =>
    owners.ofRecord(fact) !== client || state.facts.get(fact.id)?.isLeft === true;
  const matters = new Map<string, Matters>();
  const wanted = [...state.bookings.values()].filter(({ client }) => only === undefined || only.has(client));
  for (const [client, group] of Map.groupBy(wanted, (booking) => booking.client)) {
    const bookings = group.toSorted(byStart);
    const facts = factsOf.get(client) ?? [];
    const possibleStop = doubts.possibleStop(client);
    const carried = new Set(facts.filter((fact) => isOfAnother(fact, client)).map(({ id }) => id));
    matters.set(client, { bookings, facts, carried, appointments, undecided, toldOfAnother: told, possibleStop });
  }
  return matters;
};
