/** Chance that can be repeated: the same seed throws the same dice (mulberry32). */
export class Dice {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** From 0 up to, not with, 1. */
  roll(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(this.#state ^ (this.#state >>> 15), this.#state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  }

  chance(of: number): boolean {
    return this.roll() < of;
  }

  /** A whole number, both ends included. */
  between(least: number, most: number): number {
    return least + Math.floor(this.roll() * (most - least + 1));
  }

  pick<Item>(items: readonly Item[]): Item {
    return items[Math.floor(this.roll() * items.length)] as Item;
  }

  /** Items by their weights. */
  weighted<Item>(items: readonly (readonly [Item, number])[]): Item {
    let left = this.roll() * items.reduce((sum, [, weight]) => sum + weight, 0);
    for (const [item, weight] of items) if ((left -= weight) < 0) return item;
    return (items.at(-1) as readonly [Item, number])[0];
  }
}
