/**
 * The shapes that the pictures of plans are drawn with: one for each kind of step, with what has become of it inside, and the two
 * hatchings of shut days. A page holds them once; its pictures name them.
 */
import { raw } from "hono/html";
import type { FC } from "hono/jsx";
import type { StepKind } from "../plan/types.ts";
import type { ChainMark } from "./chain.ts";

/** About a middle at 0,0 and sixteen across. */
const OUTLINES: Readonly<Record<StepKind | "colour", string>> = {
  screening: "M-8-7H8V4H-1L-5 8V4H-8Z",
  rescreening: "M-8-7H8V4H5V8L1 4H-8Z",
  shipping: "M-9-6L0-2 9-6V7H-9Z",
  arrival: "M-8-1L0-8 8-1V7H-8Z",
  application: "M-8 0A8 8 0 1 0 8 0A8 8 0 1 0-8 0Z",
  removal: "M0-9L9 7H-9Z",
  reading: "M-10 0Q0-14 10 0Q0 14-10 0Z",
  result: "M0-9L9 0L0 9L-9 0Z",
  colour: "M0-10C5-4 7-1 7 3A7 7 0 0 1-7 3C-7-1-5-4 0-10Z",
};

const INNER: Readonly<Record<ChainMark["state"], string>> = {
  open: "",
  now: '<circle r="2.5"/>',
  asked: '<text y="5" text-anchor="middle">?</text>',
  done: '<path d="M-4 1L-1 4L4-3"/>',
  off: '<path d="M-8-8L8 8M8-8L-8 8"/>',
};
const STATES = Object.keys(INNER) as readonly ChainMark["state"][];

/** Of a step's shape in its state. */
export const symbolOf = ({ kind, state }: Pick<ChainMark, "kind" | "state">): string => `m-${kind}-${state}`;
export const COLOUR_SYMBOL = "m-colour";

/** Drawn over a shut day: lines where the salon is shut, dots where there is no post, both where neither works. */
export const SALON_SHUT = "shut-salon";
export const POST_SHUT = "shut-post";

const SYMBOLS = Object.entries(OUTLINES)
  .map(([kind, outline]) =>
    kind === "colour"
      ? `<path id="${COLOUR_SYMBOL}" class="m-colour" d="${outline}"/>`
      : `<path id="m-${kind}" d="${outline}"/>${STATES.map(
          (state) =>
            `<g id="${symbolOf({ kind: kind as StepKind, state })}" class="m-${state}"><use href="#m-${kind}"/>${INNER[state]}</g>`,
        ).join("")}`,
  )
  .join("");

const HATCHES =
  `<pattern id="${SALON_SHUT}" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="hatch" d="M0 0V7"/></pattern>` +
  `<pattern id="${POST_SHUT}" width="8" height="8" patternUnits="userSpaceOnUse"><circle class="dots" cx="4" cy="4" r="1.1"/></pattern>`;

/** To stand once on a page that has a `ChainPicture` or a `ChainRow`, before the first of them. */
export const ChainSymbols: FC = () => (
  <svg class="chain-symbols" width="0" height="0" aria-hidden="true">
    <defs>{raw(HATCHES + SYMBOLS)}</defs>
  </svg>
);
