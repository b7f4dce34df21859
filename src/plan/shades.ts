/** Which local days are not working days, for pictures of a plan along its days. Moves nothing. */
import type { Day, Instant } from "../time/instant.ts";
import type { Rules } from "./rules.ts";

/** A local day on which the salon or the post does not work. */
export interface Shade {
  readonly day: Day;
  readonly from: Instant;
  /** Exclusive. */
  readonly to: Instant;
  /** Whether the salon is shut all day. */
  readonly salon: boolean;
  /** Whether nothing is collected and nothing delivered. */
  readonly post: boolean;
  /** Of the holiday, or "days off"; null: it is so on every such weekday. */
  readonly name: string | null;
}

/** Every such day from the one that holds `from` to the one that holds `to`, in order. */
export const shadesBetween = (
  { closings, zone }: Pick<Rules, "closings" | "zone">,
  from: Instant,
  to: Instant,
): Shade[] => {
  const shades: Shade[] = [];
  for (let day = zone.dayAt(from); day <= zone.dayAt(to); day++) {
    const { salon, post, name } = closings.on(day);
    const isShut = { salon: salon === "shut" || salon === "never", post: post === "shut" || post === "never" };
    if (!isShut.salon && !isShut.post) continue;
    shades.push({ day, from: zone.startOfDay(day), to: zone.startOfDay(day + 1), ...isShut, name });
  }
  return shades;
};
