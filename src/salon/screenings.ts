/** The sets of answers that a salon keeps, for the person there who has to decide. Pure. */
import { ownersOf, personOf } from "./owners.ts";
import type { QuestionsShown, Screening, State } from "./types.ts";

/** Which sets of answers are listed. */
export interface ScreeningChoice {
  readonly client: string | null;
  readonly booking: string | null;
  /** The set the page before ended with. */
  readonly after: string | null;
  readonly limit: number;
}

/** A set of answers beside the questions as they were shown. */
export interface ScreeningShown extends Screening {
  readonly questions: QuestionsShown["questions"];
}

/** In the order they were answered; `next` is the cursor of the page that follows, if any. */
export const listScreenings = (
  state: Pick<State, "clients" | "screenings" | "questions">,
  { client, booking, after, limit }: ScreeningChoice,
): { readonly screenings: readonly ScreeningShown[]; readonly next: string | null } => {
  const owners = ownersOf(state);
  const person = client === null ? null : personOf(state.clients, client);
  const chosen = [...state.screenings.values()].filter(
    (row) => (person === null || owners.ofScreening(row) === person) && (booking === null || row.booking === booking),
  );
  const follow = after === null ? chosen : chosen.filter(({ id }) => id > after);
  const page = follow.slice(0, limit);
  const screenings = page.map((row) => {
    const shown = state.questions.get(String(row.version));
    if (!shown) throw new Error("answers are stored without the questions they answer");
    return { ...row, questions: shown.questions };
  });
  return { screenings, next: page.length < follow.length ? (page.at(-1)?.id ?? null) : null };
};
