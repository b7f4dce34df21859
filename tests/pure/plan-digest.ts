/**
 * Plans of a fixed row of random questions, a line each, for one host zone to be held against another. Only instants,
 * routes and states stand in a line: words may change. Run as a program it prints the host's zone and then the lines.
 */
import * as fc from "fast-check";
import { nowOf, planAt, toldBy } from "./law-plans.ts";
import { toldScenes } from "./plan-arbitraries.ts";

/** Always the same questions; a seed that hung on the host would ask each host its own. */
const SEED = 2_026;

/** One line for each of `count` plans. */
export const digestPlans = (count: number): readonly string[] =>
  fc.sample(toldScenes(), { numRuns: count, seed: SEED }).map((scene) => {
    const now = nowOf(scene, scene);
    const plan = planAt(scene, scene.start, now, toldBy(scene, now));
    const steps = plan.steps.map(({ kind, n, opens, due, state }) => [kind, n, opens, due, state]);
    const routes = plan.routes.map(({ route, fits, until, earliest }) => [route, fits, until, earliest]);
    return JSON.stringify([now, plan.route, plan.standing, plan.next, plan.earliest?.start ?? null, steps, routes]);
  });

/** The zone that this process takes for the host's. */
export const hostZone = (): string => new Intl.DateTimeFormat().resolvedOptions().timeZone;

if (process.argv[1] === import.meta.filename) {
  process.stdout.write([hostZone(), ...digestPlans(Number(process.argv[2]))].join("\n"));
}
