/**
 * By which rules an appointment is judged: by those that held when it began, whatever the salon has changed since; before that by
 * those that hold now. Stores nothing.
 */
import type { Rules } from "../plan/rules.ts";
import { settingsSchema } from "../settings.ts";
import { type Instant, yearOf } from "../time/instant.ts";
import type { Keeper } from "./keeper.ts";
import { rulesFor } from "./rulesFor.ts";

export interface RulesHeld {
  readonly rules: Rules;
  /** Of the settings they are made of. */
  readonly version: number;
  /** Whether it has begun, so that they stay. */
  readonly isFixed: boolean;
}

/** @param start when the appointment begins; undefined: it is not known any more */
export const rulesHeld = async (keeper: Keeper, start: Instant | undefined, now: Instant): Promise<RulesHeld> => {
  const present = { rules: keeper.desk.rules, version: keeper.version };
  if (start === undefined || start > now) return { ...present, isFixed: false };
  const held = keeper.store.settingsAt(start);
  if (held.version === present.version) return { ...present, isFixed: true };
  const desk = await keeper.tryDesk(settingsSchema.parse(JSON.parse(held.json)), yearOf(now));
  return { rules: await rulesFor(desk, [start, now]), version: held.version, isFixed: true };
};
