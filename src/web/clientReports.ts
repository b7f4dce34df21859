/** What a client can tell now by one press, from her plan. Never offers what only the salon may say. */
import { LATE_REACTION_DAYS } from "../bounds.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import type { Catalogue } from "../feed/language/catalogue.ts";
import type { Plan, Step, TestRoute } from "../plan/types.ts";
import type { Settings } from "../settings.ts";
import { DAY_SECONDS } from "../time/instant.ts";

export interface Report {
  readonly kind: "arrived" | "applied" | "removed" | "read" | "reacted" | "route";
  readonly outcome: "clear" | "not-sure" | null;
  /** Of a `route`: the way she asks for. */
  readonly route: TestRoute | null;
  readonly label: string;
  /** Told in alarm: set apart from the others. */
  readonly isAlarm: boolean;
}

type Words = Catalogue["report"];

const report = (kind: Report["kind"], label: string, more: Partial<Report> = {}): Report => ({
  kind,
  label,
  outcome: null,
  route: null,
  isAlarm: kind === "reacted",
  ...more,
});

/** "Something shows" stands from the application's opening on, recorded or not, until 21 days after the colour. */
export const reportsFor = (plan: Plan, language: Settings["language"]): readonly Report[] => {
  const words = catalogueOf(language).report;
  const isAsked = plan.standing !== "stop" && plan.standing !== "past" && plan.standing !== "cancelled";
  return [
    ...(isAsked ? [...kitReports(plan, words), ...testReports(plan, words), ...wishes(plan, words)] : []),
    ...(mayReact(plan) ? [report("reacted", words.somethingShows)] : []),
  ];
};

const isOpen = ({ state, opens }: Step, plan: Plan): boolean => state === "planned" && opens <= plan.asOf;
const stepOf = (plan: Plan, kind: Step["kind"]): Step | undefined => plan.steps.find((step) => step.kind === kind);
const isPosted = (plan: Plan): boolean =>
  stepOf(plan, "shipping")?.state === "done" && stepOf(plan, "arrival")?.state === "planned";
/** A kit that was posted or has come, though the plan no longer counts on it. */
const hasLeftKit = ({ leftBehind }: Plan): boolean => leftBehind.some(({ counted }) => counted?.recorded === false);

const kitReports = (plan: Plan, words: Words): readonly Report[] => {
  const arrival = stepOf(plan, "arrival");
  const mayCome = isPosted(plan) || (arrival !== undefined && isOpen(arrival, plan));
  const canWalkIn = plan.routes.some(({ route }) => route === "in-salon");
  return [
    ...(mayCome ? [report("arrived", words.arrived)] : []),
    ...(isPosted(plan) && canWalkIn ? [report("route", words.notCome, { route: "in-salon" })] : []),
  ];
};

const testReports = (plan: Plan, words: Words): readonly Report[] => {
  const steps = plan.steps.concat(plan.leftBehind);
  const isOn = plan.applied || plan.leftBehind.some(({ counted }) => counted?.recorded);
  const has = (kind: Step["kind"]): boolean => steps.some((step) => step.kind === kind && isOpen(step, plan));
  // Where no route is left, a test that is on and was never told of is the one thing that still helps.
  const mayBeOn = has("application") || hasLeftKit(plan) || plan.standing === "no-time";
  return [
    ...(mayBeOn && !plan.applied ? [report("applied", words.applied, { route: routeOf(plan) })] : []),
    ...(isOn && has("removal") ? [report("removed", words.removed)] : []),
    ...(isOn && has("reading")
      ? [report("read", words.clear, { outcome: "clear" }), report("read", words.notSure, { outcome: "not-sure" })]
      : []),
  ];
};

/**
 * Of which kind the test is that she tells of: the plan's, or the one that lapsed last. Null where a kit is out or a result
 * covers: the records then say it (counting.md 21).
 */
const routeOf = (plan: Plan): TestRoute | null => {
  if (hasLeftKit(plan) || plan.route === "on-file") return null;
  if (plan.route !== null) return plan.route;
  const lapsed = plan.routes.toSorted((one, other) => (other.until ?? 0) - (one.until ?? 0))[0]?.route;
  return lapsed === undefined || lapsed === "on-file" ? null : lapsed;
};

/** Another way that still fits, where nothing has begun. */
const wishes = (plan: Plan, words: Words): readonly Report[] => {
  const isFree = !plan.applied && plan.route !== "on-file" && !isPosted(plan) && !hasLeftKit(plan);
  const byPost = plan.routes.some(({ route, fits }) => route === "home-kit" && fits);
  return isFree && byPost && plan.route !== "home-kit"
    ? [report("route", words.pleasePost, { route: "home-kit" })]
    : [];
};

const mayReact = (plan: Plan): boolean => {
  const application = stepOf(plan, "application");
  const isLate = plan.asOf > plan.booking.start + LATE_REACTION_DAYS * DAY_SECONDS;
  const hasBegun =
    plan.applied ||
    plan.leftBehind.length > 0 ||
    plan.standing === "past" ||
    plan.standing === "no-time" ||
    (application !== undefined && application.opens <= plan.asOf);
  return !isLate && (plan.standing === "cancelled" ? plan.applied : hasBegun);
};
