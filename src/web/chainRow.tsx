/**
 * Plans one below another, each a row of a table: marks alone, since the days behind them and now are the same in every row and
 * stand once on the page. Written as text: a table has hundreds of rows.
 */
import { raw } from "hono/html";
import type { FC } from "hono/jsx";
import type { Shade } from "../plan/shades.ts";
import type { Instant } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import type { ChainMark, ChainShown } from "./chain.ts";
import { escapeHtml } from "./escapeHtml.ts";
import { alongOf, type Axis, daysOf, isWithin, lanesOf, momentOf, stretchesOf } from "./chainAxis.ts";
import { COLOUR_SYMBOL, POST_SHUT, SALON_SHUT, symbolOf } from "./chainSymbols.tsx";

/** In pixels. */
const LANE = 19;
const ROOM = 3;
/** Hundredths of a row that two marks of one lane are apart at least: a mark's width in a row of 560 pixels. */
const APART = 3.3;
const LANES_MOST = 4;

const SCALE = "row-scale";

/** What lies behind the marks of every row: to stand once on the page, below `ChainSymbols` and above the rows. */
export const RowScale: FC<{ from: Instant; to: Instant; now: Instant; shades: readonly Shade[]; zone: Zone }> = ({
  from,
  to,
  now,
  shades,
  zone,
}) => {
  const axis = { from, to };
  const place = (at: Instant): string => `${alongOf(at, axis).toFixed(2)}%`;
  return (
    <svg class="chain-symbols" width="0" height="0" aria-hidden="true">
      <defs>
        <g id={SCALE}>
          {stretchesOf(shades, axis).flatMap((stretch) =>
            [stretch.salon ? SALON_SHUT : null, stretch.post ? POST_SHUT : null].map((hatch) =>
              hatch === null ? null : (
                <rect
                  class="shut"
                  x={place(stretch.from)}
                  width={`${(alongOf(stretch.to, axis) - alongOf(stretch.from, axis)).toFixed(2)}%`}
                  height="100%"
                  fill={`url(#${hatch})`}
                />
              ),
            ),
          )}
          {daysOf(axis, zone).map(({ from: begins }) => (
            <line class="midnight" x1={place(begins)} x2={place(begins)} y1="0" y2="100%" />
          ))}
          {isWithin(now, axis) ? <line class="now-line" x1={place(now)} x2={place(now)} y1="0" y2="100%" /> : null}
        </g>
      </defs>
    </svg>
  );
};

/**
 * One plan between two instants; the page holds `ChainSymbols` and `RowScale` of the same instants.
 * @param label what it shows, for who reads instead of looking; undefined: the row's other cells say it
 */
export const ChainRow: FC<{ shown: ChainShown; from: Instant; to: Instant; label?: string }> = ({
  shown,
  from,
  to,
  label,
}) => raw(chainRow(shown, { from, to }, label === undefined ? HIDDEN : `role="img" aria-label="${escapeHtml(label)}"`));

const HIDDEN = 'aria-hidden="true"';

/**
 * The same as text, for tables that are written as text.
 * @param named its attributes for who reads instead of looking
 */
export const chainRow = (
  { marks, colour }: { readonly marks: readonly Omit<ChainMark, "words">[]; readonly colour: Instant },
  axis: Axis,
  named: string = HIDDEN,
): string => {
  const drawn = [
    ...marks.map((mark) => ({ id: symbolOf(mark), at: momentOf(mark) })),
    { id: COLOUR_SYMBOL, at: colour },
  ].filter(({ at }) => isWithin(at, axis));
  const places = drawn.map(({ at }) => alongOf(at, axis));
  const lanes = lanesOf(places, APART, LANES_MOST);
  const height = LANE * Math.max(1, ...lanes.map((lane) => lane + 1)) + ROOM;
  const uses = drawn.map(
    ({ id }, index) =>
      `<use href="#${id}" x="${places[index]?.toFixed(2)}%" y="${(lanes[index] ?? 0) * LANE + (LANE + ROOM) / 2}"/>`,
  );
  return `<svg class="chain-row" ${named} width="100%" height="${height}"><use href="#${SCALE}"></use>${uses.join("")}</svg>`;
};
