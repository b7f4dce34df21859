/** Numbers that look like chance and are made from a seed, so that every mutant can be made again (mulberry32, public domain). */
export class Dice {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** At least 0, below `count`. */
  below(count: number): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = this.#state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296) * count);
  }

  of<Item>(items: readonly Item[]): Item {
    return items[this.below(items.length)] as Item;
  }
}
