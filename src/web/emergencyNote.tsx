/** The fixed words for an emergency, as every page for a client shows them: first, and in sight however far one reads. */
import type { FC } from "hono/jsx";
import { emergencyWords } from "../feed/emergency.ts";

/** @param country of the salon, where it is known */
export const EmergencyNote: FC<{ country: string | null }> = ({ country }) => (
  // On a screen that is zoomed far in it scrolls by itself, which the keyboard must be able to do.
  <p class="emergency" role="note" tabindex={0}>
    {emergencyWords(country)}
  </p>
);
