/**
 * What one place of the service may hold, for a place that is written whole (a diary, the settings). Writes that cross, or
 * were cut off, leave several values possible until somebody looks; an acknowledged one rules out all that ended before it
 * began.
 */

/** Counts what happens in the order the harness sees it. */
export class Order {
  #last = 0;
  next(): number {
    return ++this.#last;
  }
}

export interface Write<Value> {
  readonly value: Value;
  readonly began: number;
  ended: number;
  isAcknowledged: boolean;
  /** Cut off, and nobody has looked yet whether it is there. */
  isOpen: boolean;
}

export class Held<Value> {
  readonly #order: Order;
  #possible: Write<Value>[];

  constructor(order: Order, value: Value) {
    this.#order = order;
    this.#possible = [{ value, began: 0, ended: order.next(), isAcknowledged: true, isOpen: false }];
  }

  get possible(): readonly Write<Value>[] {
    return this.#possible;
  }

  begin(value: Value): Write<Value> {
    const write = { value, began: this.#order.next(), ended: Infinity, isAcknowledged: false, isOpen: false };
    this.#possible.push(write);
    return write;
  }

  acknowledge(write: Write<Value>): void {
    write.ended = this.#order.next();
    write.isAcknowledged = true;
    this.#possible = this.#possible.filter((each) => each === write || each.ended > write.began);
  }

  /** It was refused, or passed by a later one: it never held. */
  refuse(write: Write<Value>): void {
    this.#possible = this.#possible.filter((each) => each !== write);
  }

  /** A process that is gone writes no more: what was cut off is over, whatever came of it. */
  cut(write: Write<Value>): void {
    write.ended = this.#order.next();
    write.isOpen = true;
  }

  /** Somebody has looked: the newest possible write that `isThere` knows again. Undefined where it is none of them. */
  find(isThere: (write: Write<Value>) => boolean): { found: Write<Value>; cut: readonly Write<Value>[] } | undefined {
    const found = this.#possible.findLast(isThere);
    if (!found) return undefined;
    const cut = this.#possible.filter(({ isOpen }) => isOpen);
    for (const each of cut) each.isOpen = false;
    this.#possible = [found];
    return { found, cut };
  }
}
