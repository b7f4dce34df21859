/** A standing in words beside a shape of its own, so that colour is never needed to tell it. */
import { raw } from "hono/html";
import type { FC } from "hono/jsx";
import type { Standing } from "../../plan/types.ts";

export const STANDING_SAYS: Readonly<Record<Standing, string>> = {
  "on-track": "On track",
  due: "To do now",
  late: "Late",
  "no-time": "No time left",
  ready: "Ready for colour",
  stop: "Stop: do not colour",
  past: "Past",
  cancelled: "Cancelled",
};

/** Drawn in a square of 16. */
const SHAPES: Readonly<Record<Standing, string>> = {
  // An open circle.
  "on-track": "M8 2a6 6 0 1 0 .01 0zM8 4a4 4 0 1 1-.01 0z",
  // A circle half filled.
  due: "M8 2a6 6 0 1 0 .01 0zM8 4v8a4 4 0 0 1 0-8z",
  // A triangle with its point up.
  late: "M8 1.5 15 14H1z",
  // A cross.
  "no-time": "M3.5 2 8 6.5 12.5 2 14 3.5 9.5 8 14 12.5 12.5 14 8 9.5 3.5 14 2 12.5 6.5 8 2 3.5z",
  // A tick.
  ready: "M2 8.5 4 6.5 6.5 9 12.5 3 14.5 5 6.5 13z",
  // An octagon with a bar.
  stop: "M5 1h6l4 4v6l-4 4H5l-4-4V5zM4 7v2h8V7z",
  past: "M2 7h12v2H2z",
  cancelled: "M2 7h12v2H2z",
};

export const StandingMark: FC<{ standing: Standing }> = ({ standing }) => raw(standingMark(standing));

/** The same as text, for tables that are written as text. */
export const standingMark = (standing: Standing): string =>
  `<span class="standing ${standing}"><svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true"><path d="${SHAPES[standing]}" fill="currentColor" fill-rule="evenodd"/></svg>${STANDING_SAYS[standing]}</span>`;
