/** What was not understood of a calendar, by its reason, with the first examples of each. */
import type { Why } from "../plan/types.ts";
import { fitText, wrapText } from "./fitText.ts";

/** Enough to find the others like them in the calendar program. */
const EXAMPLES_SHOWN = 3;
const COUNT_WIDTH = 6;

export class Troubles {
  readonly #byCode = new Map<string, { readonly text: string; count: number; readonly examples: string[] }>();

  get isEmpty(): boolean {
    return this.#byCode.size === 0;
  }

  codes(): ReadonlySet<string> {
    return new Set(this.#byCode.keys());
  }

  add({ code, text }: Why, example: string): void {
    const known = this.#byCode.get(code) ?? { text, count: 0, examples: [] };
    this.#byCode.set(code, known);
    known.count++;
    if (known.examples.length < EXAMPLES_SHOWN) known.examples.push(example);
  }

  /** Text of at most `columns`. */
  *lines(columns: number): Generator<string> {
    const margin = " ".repeat(COUNT_WIDTH + 3);
    for (const { text, count, examples } of this.#byCode.values()) {
      yield wrapText(text, `${String(count).padStart(COUNT_WIDTH)} × `, columns);
      for (const example of examples) yield `${margin}- ${fitText(example, columns - margin.length - 2)}\n`;
      if (count > examples.length) yield `${margin}… and ${count - examples.length} more\n`;
    }
  }
}
