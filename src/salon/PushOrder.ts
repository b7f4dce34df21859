/**
 * Keeps the pushes of one salon in the order they began, those of a diary included that the salon did not know when they
 * began. A push lives no longer than the salon's object, so that this is kept in memory only.
 */
export class PushOrder {
  #last = 0;
  readonly #landed = new Map<string, number>();

  /** The place of a push that begins. */
  begin(): number {
    this.#last++;
    return this.#last;
  }

  /** Whether one of the same diary that began later has been applied or held, or the diary was taken away since. */
  isOvertaken(diary: string, place: number): boolean {
    return place < (this.#landed.get(diary) ?? 0);
  }

  /** Notes that a push has been applied or held. */
  land(diary: string, place: number): void {
    this.#landed.set(diary, place);
  }

  /** Notes that a diary was taken away: whatever is on its way to it comes too late. */
  takeAway(diary: string): void {
    this.#landed.set(diary, this.#last + 1);
    this.#last++;
  }
}
