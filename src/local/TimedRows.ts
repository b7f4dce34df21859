/** Lines in the order of their times, of which only so many are kept while they come: a calendar may hold a hundred thousand. */

export interface TimedRow {
  /** Seconds; only compared. */
  readonly at: number;
  readonly line: string;
}

export class TimedRows {
  count = 0;
  first = Number.POSITIVE_INFINITY;
  last = Number.NEGATIVE_INFINITY;
  readonly #most: number;
  readonly #sign: 1 | -1;
  #rows: TimedRow[] = [];

  /** @param which of them to keep where there are more than `most` */
  constructor(which: "earliest" | "latest", most: number) {
    this.#most = most;
    this.#sign = which === "earliest" ? 1 : -1;
  }

  add(row: TimedRow): void {
    this.count++;
    this.first = Math.min(this.first, row.at);
    this.last = Math.max(this.last, row.at);
    this.#rows.push(row);
    if (this.#rows.length >= this.#most * 20) this.#cut();
  }

  get hidden(): number {
    return Math.max(0, this.count - this.#most);
  }

  /** The kept lines, the earliest first. */
  lines(): string[] {
    this.#cut();
    return this.#rows.sort((one, other) => one.at - other.at).map(({ line }) => line);
  }

  #cut(): void {
    this.#rows = this.#rows.sort((one, other) => this.#sign * (one.at - other.at)).slice(0, this.#most);
  }
}
