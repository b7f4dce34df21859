/** The form of a count-back reckoned by hand, and what several of them share. Holds no reckoning. */

/** `screening`, `reading 2`, with the state where it is not `planned`. */
export type StepRow = readonly [step: string, opens: string, due: string, state?: string];
/** A route, the last instant at which it fits, and where it does not fit the earliest colour that it would allow. */
export type RouteRow = readonly [route: string, fits: boolean, until: string | null, earliest?: string];

export interface HandCase {
  readonly name: string;
  /** The reckoning. */
  readonly by: string;
  readonly ask: { readonly start: string; readonly now: string } & Readonly<Record<string, unknown>>;
  readonly route: string | null;
  readonly standing: string;
  readonly routes: readonly RouteRow[];
  readonly steps: readonly StepRow[];
}

export const WALK_IN = [{ route: "in-salon", protocol: "salon-48h" }];
export const KIT = [{ route: "home-kit", protocol: "home-kit-120h" }];
export const daily = (days: string, ...spans: string[]) =>
  Object.fromEntries(days.split(" ").map((day) => [day, spans]));

/** The salon of "One booking by hand" in counting.md, and its colour: Thursday 29 October 2026, 10:30 GMT. */
export const OCTOBER = {
  zone: "Europe/London",
  start: "2026-10-29T10:30",
  settings: { opening: { ...daily("tue wed thu fri", "09:00-17:30"), sat: ["09:00-16:00"] } },
};
