/**
 * A client's agreement that her health answers are kept, and what follows when she takes it back: her answers are emptied,
 * while that she was asked, when, and what came of it stay with the records. Statements are appended, never changed.
 */
import { withdrawalWords } from "../feed/withdrawalWords.ts";
import type { Settings } from "../settings.ts";
import type { Instant } from "../time/instant.ts";
import { numberOfId, takeId } from "./inTurn.ts";
import type { Keeper } from "./keeper.ts";
import { ownersOf } from "./owners.ts";
import type { Client, Consent, Screening, State } from "./types.ts";

/** What a client's statements come to. */
export interface ConsentHeld {
  /** Whether her answers may be kept. */
  readonly given: boolean;
  /** Of the statement that holds. */
  readonly at: Instant;
  /** When the oldest answers that are still kept were given; null: none are kept. */
  readonly keptSince: Instant | null;
}

export interface ConsentSaid {
  readonly held: ConsentHeld | null;
  /** False where she took back what she never gave, or had taken back before. */
  readonly isNew: boolean;
  /** Of the words that say what follows. */
  readonly language: Settings["language"];
}

type Kept = Pick<State, "clients" | "consents" | "screenings">;

/** What a person has said or answered, under whatever name she was known then. */
const hers = <Row extends { readonly id: string; readonly client: string }>(
  state: Kept,
  rows: ReadonlyMap<string, Row>,
  person: string,
): Row[] => {
  const { ofScreening } = ownersOf(state);
  return [...rows.values()].filter((row) => ofScreening(row) === person);
};

/** The statement that holds; undefined where she never made one. */
export const newestConsent = (state: Kept, person: string): Consent | undefined =>
  hers(state, state.consents, person)
    .toSorted((one, other) => numberOfId(one.id) - numberOfId(other.id))
    .at(-1);

/** Null where she never said anything. */
export const consentOf = (state: Kept, client: string): ConsentHeld | null => {
  const newest = newestConsent(state, client);
  if (!newest) return null;
  const kept = hers(state, state.screenings, client).find(({ answers }) => answers !== null);
  return { given: newest.given || kept !== undefined, at: newest.at, keptSince: kept?.at ?? null };
};

/**
 * Takes her agreement back. Errors: none; what she never gave, or took back before, changes nothing.
 * @param isPressed she pressed what her page offers, and read its words
 */
export const withdrawConsent = (keeper: Keeper, client: Client, isPressed: boolean, now: Instant): ConsentSaid => {
  const newest = newestConsent(keeper.state, client.id);
  // Of two who were joined one may have taken hers back already: what is still kept rests on the other's.
  const isNew = newest !== undefined && consentOf(keeper.state, client.id)?.given === true;
  if (isNew) {
    keeper.change(now, (work) => {
      const id = takeId("k", work);
      const { follows, press } = withdrawalWords(keeper.settings.language);
      const words = isPressed ? `${follows} ${press}` : null;
      work.consents.set(id, { id, client: client.id, given: false, at: now, words, via: "client-link" });
      for (const row of hers(work, work.screenings, client.id)) work.screenings.set(row.id, emptied(row, now));
    });
  }
  return { held: consentOf(keeper.state, client.id), isNew, language: keeper.settings.language };
};

const emptied = (row: Screening, now: Instant): Screening =>
  row.answers === null ? row : { ...row, answers: null, withdrawn: now };
