/** The sets of answers that a salon keeps, for the person there who has to decide. Pure. */
import { ownersOf } from "./owners.ts";
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
  const chosen = [...state.screenings.values()].filter(
    (row) =>
      (client === null || row.client === client || owners.ofScreening(row) === client) &&
      (booking === null || row.booking === booking),
  );
  const begin = after === null ? 0 : chosen.findIndex(({ id }) => id === after) + 1;
  const page = chosen.slice(begin, begin + limit);
  const screenings = page.map((row) => {
    const shown = state.questions.get(String(row.version));
    if (!shown) throw new Error("answers are stored without the questions they answer");
    return { ...row, questions: shown.questions };
  });
  return { screenings, next: begin + page.length < chosen.length ? (page.at(-1)?.id ?? null) : null };
};
