/** What a run has done and found: exact counts, and the faults, each said once. */

const COUNTS = [
  "kills",
  "killsInStart",
  "salons",
  "records",
  "screenings",
  "keptOfCut",
  "notKeptOfCut",
  "refused",
  "pushes",
  "held",
  "drops",
  "cutPushesApplied",
  "cutPushesNotApplied",
  "settings",
  "cutSettingsKept",
  "cutSettingsNotKept",
  "feeds",
  "wholeFeeds",
  "unchanged",
  "events",
  "plans",
  "judgements",
] as const;
export type Count = (typeof COUNTS)[number];

export class Tally {
  readonly counts: Record<Count, number>;
  readonly #faults = new Set<string>();

  constructor() {
    this.counts = Object.fromEntries(COUNTS.map((name) => [name, 0])) as Record<Count, number>;
  }

  add(name: Count, by = 1): void {
    this.counts[name] += by;
  }

  fault(text: string): void {
    this.#faults.add(text);
  }

  get faults(): readonly string[] {
    return [...this.#faults];
  }
}
