/** Which records the desk offers for what is due: the usual one first. */
import type { DueKind } from "../../salon/deskDue.ts";
import type { Plan, TestRoute } from "../../plan/types.ts";
import type { Detail, RecordChoice } from "./recordForm.tsx";

export interface Offered {
  readonly choices: readonly RecordChoice[];
  readonly details: readonly Detail[];
}

const SHOWS: RecordChoice = { kind: "reacted", label: "Something shows", isAlarm: true };

/**
 * Nothing to press where a person must read something first.
 * @param hasOpened a test that is taken off before its time does not count, and a look before it is none: what is still to come
 *   is listed with its time, and only that something shows can be told of it
 */
export const offeredFor = (kind: DueKind, plan: Plan, hasOpened: boolean): Offered => {
  if (!hasOpened && (kind === "removal" || kind === "look")) return { choices: [SHOWS], details: ["note"] };
  switch (kind) {
    case "post":
      return { choices: [{ kind: "posted", label: "Kit is posted" }], details: ["product"] };
    case "walk-in":
      return {
        choices: [{ kind: "applied", route: "in-salon", label: "Test is on" }],
        details: ["product", "site"],
      };
    case "kit":
      return {
        choices: [
          { kind: "arrived", label: "Kit has come" },
          { kind: "applied", route: "home-kit", label: "Test is on" },
          ...(canWalkIn(plan)
            ? [{ kind: "route" as const, route: "in-salon" as const, label: "Not come: test here" }]
            : []),
        ],
        details: ["site"],
      };
    case "removal":
      return { choices: [{ kind: "removed", label: "Taken off" }, SHOWS], details: ["note"] };
    case "look":
      return {
        choices: [
          { kind: "read", outcome: "clear", label: "Clear" },
          { kind: "read", outcome: "not-sure", label: "Not sure" },
          SHOWS,
        ],
        details: ["note"],
      };
    case "confirm":
      return { choices: [{ kind: "confirmed", label: "Confirm the result" }], details: ["note"] };
    case "decide":
    case "questions":
      return { choices: [], details: [] };
  }
};

const canWalkIn = ({ routes }: Plan): boolean =>
  routes.some(({ route, fits }) => route === ("in-salon" satisfies TestRoute) && fits);
