/** What a client can tell now by one press, from her plan. Never offers what only the salon may say. */
import { LATE_REACTION_DAYS } from "../bounds.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import type { Plan, Step } from "../plan/types.ts";
import type { Settings } from "../settings.ts";
import { DAY_SECONDS } from "../time/instant.ts";

export interface Report {
  readonly kind: "arrived" | "applied" | "removed" | "read" | "reacted";
  readonly outcome: "clear" | "not-sure" | null;
  readonly label: string;
  /** Told in alarm: set apart from the others. */
  readonly isAlarm: boolean;
}

/** "Something shows" stands from the application's opening on, recorded or not, until 21 days after the colour. */
export const reportsFor = (plan: Plan, language: Settings["language"]): readonly Report[] => {
  const words = catalogueOf(language).report;
  const isOpen = ({ state, opens }: Step): boolean => state === "planned" && opens <= plan.asOf;
  const find = (kind: Step["kind"]): Step | undefined => plan.steps.find((step) => step.kind === kind);
  const [shipping, arrival, application] = [find("shipping"), find("arrival"), find("application")];
  const isAsked = plan.standing !== "stop" && plan.standing !== "past" && plan.standing !== "cancelled";
  const isPosted = shipping?.state === "done" && arrival?.state === "planned";
  const has = (kind: Step["kind"]): boolean =>
    plan.steps.concat(plan.leftBehind).some((step) => step.kind === kind && isOpen(step));
  const report = (kind: Report["kind"], label: string, outcome: Report["outcome"] = null): Report => ({
    kind,
    outcome,
    label,
    isAlarm: kind === "reacted",
  });
  const isOn = plan.applied || (application !== undefined && application.opens <= plan.asOf);
  const isLate = plan.asOf > plan.booking.start + LATE_REACTION_DAYS * DAY_SECONDS;
  return [
    ...(isAsked && (isPosted || has("arrival")) ? [report("arrived", words.arrived)] : []),
    ...(isAsked && has("application") ? [report("applied", words.applied)] : []),
    ...(isAsked && plan.applied && has("removal") ? [report("removed", words.removed)] : []),
    ...(isAsked && plan.applied && has("reading")
      ? [report("read", words.clear, "clear"), report("read", words.notSure, "not-sure")]
      : []),
    ...((plan.standing === "cancelled"
      ? plan.applied
      : isOn || plan.leftBehind.length > 0 || plan.standing === "past") && !isLate
      ? [report("reacted", words.somethingShows)]
      : []),
  ];
};
