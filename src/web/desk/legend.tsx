/** What the shapes of the rows stand for. */
import type { FC } from "hono/jsx";
import type { ChainMark } from "../chain.ts";
import { COLOUR_SYMBOL, POST_SHUT, SALON_SHUT, symbolOf } from "../chainSymbols.tsx";
import { STEP_NAMES } from "./stepNames.ts";

const KINDS = Object.keys(STEP_NAMES) as (keyof typeof STEP_NAMES)[];
const STATES: readonly (readonly [ChainMark["state"], string])[] = [
  ["open", "to come"],
  ["now", "can be done now"],
  ["asked", "past, not recorded"],
  ["done", "done"],
];

const Sign: FC<{ id: string; words: string }> = ({ id, words }) => (
  <li>
    <svg viewBox="-11 -11 22 22" width="22" height="22" aria-hidden="true">
      <use href={`#${id}`} />
    </svg>
    {words}
  </li>
);

const Hatch: FC<{ id: string; words: string }> = ({ id, words }) => (
  <li>
    <svg width="22" height="22" aria-hidden="true">
      <rect width="100%" height="100%" fill={`url(#${id})`} />
    </svg>
    {words}
  </li>
);

/** The page holds `ChainSymbols`. */
export const Legend: FC = () => (
  <details class="legend">
    <summary>What the shapes mean</summary>
    <ul>
      {KINDS.map((kind) => (
        <Sign id={symbolOf({ kind, state: "open" })} words={STEP_NAMES[kind]} />
      ))}
      <Sign id={COLOUR_SYMBOL} words="Colour" />
    </ul>
    <ul>
      {STATES.map(([state, words]) => (
        <Sign id={symbolOf({ kind: "application", state })} words={words} />
      ))}
      <Hatch id={SALON_SHUT} words="you are shut" />
      <Hatch id={POST_SHUT} words="no post" />
    </ul>
  </details>
);
