/**
 * How a diary writes its clients' names, told from entries that the salon's words understand: a ground for reading a title
 * that they do not. Guesses nothing where the entries disagree.
 */
import type { Sorting } from "./compileSorting.ts";
import { foldWords } from "./compileWords.ts";
import type { SortedEntry } from "./findBookings.ts";
import { guestsOf } from "./findClient.ts";
import type { Template } from "./matchTemplate.ts";
import { splitTitle } from "./splitTitle.ts";

export interface NameHabits {
  /** The one template by which titles name clients here; null where none does, or several. */
  readonly template: Template | null;
  /** Most appointments here name their client. */
  readonly areNamed: boolean;
  /** Names of clients here, folded by foldWords. */
  readonly names: ReadonlySet<string>;
}

const NAMELESS: ReadonlySet<string> = new Set(["no-name", "test-no-name"]);

/** @param entries of one diary */
export const nameHabits = (entries: readonly SortedEntry[], sorting: Sorting): NameHabits => {
  const templates = new Set<Template>();
  const names = new Set<string>();
  let named = 0;
  let nameless = 0;
  for (const { entry, sorted } of entries) {
    for (const { name } of guestsOf(entry, sorting)) if (name !== "") names.add(foldWords(name));
    if (sorted.kind === "unsorted" && NAMELESS.has(sorted.why.code)) nameless++;
    if (sorted.kind !== "booking" && sorted.kind !== "test") continue;
    const name = foldWords(sorted.client.name);
    names.add(name);
    if (sorted.answered) continue;
    named++;
    const split = splitTitle(entry.summary, sorting).find(({ client }) => foldWords(client) === name);
    if (split) templates.add(split.template);
  }
  const [template = null] = templates;
  return { template: templates.size === 1 ? template : null, areNamed: named > nameless, names };
};
