/** Counts what held and what did not, says each in a line, and closes with the sum. */
import { isDeepStrictEqual } from "node:util";

export class Checks {
  #passed = 0;
  #failed = 0;

  isTrue(fact: string, holds: boolean, seen: unknown = ""): void {
    if (holds) this.#passed += 1;
    else this.#failed += 1;
    const what = holds || seen === "" ? "" : `: ${JSON.stringify(seen, null, 1)}`;
    process.stdout.write(`${holds ? "ok    " : "FAILED"} ${fact}${what}\n`);
  }

  isSame(fact: string, seen: unknown, wanted: unknown): void {
    this.isTrue(fact, isDeepStrictEqual(seen, wanted), { seen, wanted });
  }

  /** @returns the exit code */
  close(): number {
    process.stdout.write(`\n${this.#passed} passed, ${this.#failed} failed\n`);
    return this.#failed === 0 && this.#passed > 0 ? 0 : 1;
  }
}
