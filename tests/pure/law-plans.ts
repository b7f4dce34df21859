/** The engine's plans as the laws ask for them. Corrects nothing and expects nothing. */
import { countBack } from "../../src/plan/countBack.ts";
import type { Fact, Plan, RouteName, RoutePlan, Step, StepKind, TestAppointment } from "../../src/plan/types.ts";
import { DAY_SECONDS, type Instant } from "../../src/time/instant.ts";
import { bookingAt, makeFact, type Scene, type ToldScene } from "./plan-arbitraries.ts";

type Salon = Pick<Scene, "rules">;

/** What is known of a booking beside its start. */
interface Told {
  readonly facts: readonly Fact[];
  readonly appointments?: readonly TestAppointment[];
}
const NOTHING: Told = { facts: [] };

export const planAt = (
  { rules }: Salon,
  start: Instant,
  now: Instant,
  { facts, appointments = [] }: Told = NOTHING,
): Plan => countBack({ booking: bookingAt(start), facts, appointments, samePerson: true, now }, rules);

/** What was known by a moment; the diary is what it is. */
export const toldBy = ({ facts, appointments }: ToldScene, now: Instant): Told => ({
  facts: facts.filter((fact) => fact.at <= now),
  appointments,
});

const known = new WeakMap<Salon["rules"], Map<string, Plan>>();

/** The plan of one route, asked for by a record long before everything else; another route's where it has no moment. */
export const planBy = (salon: Salon, start: Instant, route: RouteName): Plan => {
  const plans = known.get(salon.rules) ?? new Map<string, Plan>();
  known.set(salon.rules, plans);
  const at = start - 450 * DAY_SECONDS;
  const plan =
    plans.get(`${route} ${start}`) ?? planAt(salon, start, at, { facts: [makeFact({ kind: "route", at, route })] });
  plans.set(`${route} ${start}`, plan);
  return plan;
};

/** The plan of each of a salon's tests, where it has one, and the plan at `now`, for a client without records. */
export const plansOf = (scene: Scene, start: Instant, now: Instant): readonly Plan[] => [
  ...scene.rules.tests.map(({ route }) => planBy(scene, start, route)).filter(({ route }) => route !== null),
  planAt(scene, start, now),
];

/** The kinds of step that law h puts in a row, in their order. */
export const BEFORE_THE_LOOKS: readonly StepKind[] = ["screening", "shipping", "arrival", "application", "removal"];

export const stepOf = (plan: Plan, kind: StepKind): Step | undefined => plan.steps.find((step) => step.kind === kind);
export const routeOf = (plan: Plan, route: RouteName): RoutePlan | undefined =>
  plan.routes.find((each) => each.route === route);
export const fitsAt = (salon: Salon, start: Instant, now: Instant, route: RouteName, told: Told = NOTHING): boolean =>
  routeOf(planAt(salon, start, now, told), route)?.fits ?? false;

/** Every instant at which the plans of a scene may turn, whichever route they take. */
const edgesOf = (scene: Scene, told: Told): readonly Instant[] => {
  const { rules, start } = scene;
  const plans = [planAt(scene, start, start, told), ...rules.tests.map(({ route }) => planBy(scene, start, route))];
  return plans.flatMap(({ steps, routes }) => [
    ...steps.flatMap(({ opens, due }) => [due, opens, due]),
    ...routes.flatMap(({ until }) => until ?? []),
  ]);
};

/** The moment at which a scene is looked at; its edges are those of all that will ever be told. */
export const nowOf = (scene: Scene, told: Told = NOTHING): Instant => {
  const { seen, start } = scene;
  if ("seconds" in seen) return start + seen.seconds;
  const edges = edgesOf(scene, told);
  return (edges[seen.edge % Math.max(edges.length, 1)] ?? start) + seen.shift;
};
