/**
 * Puts the pulls of one salon in order: a few at once, one at a time of one diary, and no more of them in line than say
 * something new. Lives as long as the salon's object does; knows nothing of what a pull is.
 */

/** One key's pulls: what runs, and what is asked for after it. */
interface Turn {
  running: Promise<void>;
  next: Promise<void> | null;
}

export class PullQueue {
  readonly #most: number;
  readonly #turns = new Map<string, Turn>();
  readonly #waiting: (() => void)[] = [];
  #free: number;

  /** @param most how many run at once */
  constructor(most: number) {
    this.#most = most;
    this.#free = most;
  }

  /** How many run at this moment. */
  get running(): number {
    return this.#most - this.#free;
  }

  /**
   * Resolves, or fails, with a pull that began no earlier than this call. Calls that come while one of the same key runs
   * share the one after it.
   */
  add(key: string, pull: () => Promise<void>): Promise<void> {
    const turn = this.#turns.get(key);
    if (!turn) return this.#begin(key, pull);
    turn.next ??= turn.running.then(
      () => this.#begin(key, pull),
      () => this.#begin(key, pull),
    );
    return turn.next;
  }

  #begin(key: string, pull: () => Promise<void>): Promise<void> {
    const running = this.#inLane(pull).finally(() => {
      if (this.#turns.get(key) === turn && turn.next === null) this.#turns.delete(key);
    });
    const turn: Turn = { running, next: null };
    this.#turns.set(key, turn);
    return running;
  }

  async #inLane(pull: () => Promise<void>): Promise<void> {
    if (this.#free > 0) this.#free--;
    else await new Promise<void>((resolve) => this.#waiting.push(resolve));
    try {
      await pull();
    } finally {
      const heir = this.#waiting.shift();
      if (heir) heir();
      else this.#free++;
    }
  }
}
