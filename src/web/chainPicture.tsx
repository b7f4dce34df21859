/**
 * A plan along its days, drawn: each step in a lane of its own with the stretch in which it can be done, shut days, now, and the
 * colour at the end. All that it says stands in words in the list beside it.
 */
import type { FC } from "hono/jsx";
import { fill } from "../feed/fill.ts";
import { isDoneFrom } from "../feed/eventTime.ts";
import type { Catalogue } from "../feed/language/catalogue.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import { dateInWords, longTime, shortTime } from "../feed/timeInWords.ts";
import type { Settings } from "../settings.ts";
import { MINUTE, partsOfDay, wholeMinute, weekdayOf } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { alongOf, type Axis, axisOf, daysOf, isWithin, momentOf, stretchesOf } from "./chainAxis.ts";
import type { ChainMark, ChainShown } from "./chain.ts";
import { ShutDays } from "./chainShut.tsx";
import { COLOUR_SYMBOL, POST_SHUT, SALON_SHUT, symbolOf } from "./chainSymbols.tsx";

/** Heights in pixels. */
const HEAD = 44;
const LANE = 42;
const FOOT = 20;
/** Of a lane, from its top: its words, and its shape. */
const WORDS = 13;
const SHAPE = 29;

const place = (at: number, axis: Axis): string => `${alongOf(at, axis).toFixed(4)}%`;

/** @param shown of `chainOf`; the page holds `ChainSymbols` */
export const ChainPicture: FC<{ shown: ChainShown; zone: Zone; language: Settings["language"] }> = ({
  shown,
  zone,
  language,
}) => {
  const catalogue = catalogueOf(language);
  const axis = axisOf(shown, zone);
  const height = HEAD + LANE * (shown.marks.length + 1) + FOOT;
  return (
    <figure class="chain">
      <svg role="img" aria-label={labelOf(shown, zone, catalogue)} width="100%" height={height}>
        <Days shown={shown} axis={axis} zone={zone} words={catalogue.time} height={height} />
        <Now shown={shown} axis={axis} zone={zone} catalogue={catalogue} height={height} />
        {shown.marks.map((mark, index) => (
          <Lane mark={mark} top={HEAD + LANE * index} axis={axis} words={wordsOf(mark, shown, zone, catalogue)} />
        ))}
        <Words at={shown.colour} top={HEAD + LANE * shown.marks.length} axis={axis} state="colour">
          {`${catalogue.picture.colour} ${shortTime(shown.colour, zone, catalogue.time)}`}
        </Words>
        <Shape id={COLOUR_SYMBOL} at={shown.colour} top={HEAD + LANE * shown.marks.length} axis={axis} />
      </svg>
      <ShutDays shades={shown.shades} axis={axis} catalogue={catalogue} />
    </figure>
  );
};

/** How many days may have a label each: more of them take turns on a narrow screen, and far more on any. */
const LABELS_NARROW = 9;
const LABELS_WIDE = 24;

const Days: FC<{ shown: ChainShown; axis: Axis; zone: Zone; words: Catalogue["time"]; height: number }> = ({
  shown,
  axis,
  zone,
  words,
  height,
}) => {
  const days = daysOf(axis, zone);
  const [narrow, wide] = [LABELS_NARROW, LABELS_WIDE].map((most) => Math.ceil(days.length / most)) as [number, number];
  // Counted from the colour's day, which so has a label always.
  const last = zone.dayAt(shown.colour);
  return (
    <>
      {stretchesOf(shown.shades, axis).flatMap(({ from, to, salon, post }) =>
        [salon ? SALON_SHUT : null, post ? POST_SHUT : null].map((hatch) =>
          hatch === null ? null : (
            <rect
              class="shut"
              x={place(from, axis)}
              y={HEAD - 6}
              width={`${(alongOf(to, axis) - alongOf(from, axis)).toFixed(4)}%`}
              height={height - HEAD - FOOT + 6}
              fill={`url(#${hatch})`}
            />
          ),
        ),
      )}
      {days.map(({ day, from }, index) => {
        const { month, dayOfMonth } = partsOfDay(day);
        const to = days[index + 1]?.from ?? axis.to;
        const middle = place((from + to) / 2, axis);
        const turn = Math.abs(day - last);
        const density = turn % narrow === 0 ? (turn % wide === 0 ? "day" : "day narrow") : "day wide";
        return (
          <>
            <line class="midnight" x1={place(from, axis)} x2={place(from, axis)} y1={HEAD - 6} y2={height - FOOT} />
            {turn % narrow === 0 || turn % wide === 0 ? (
              <g class={density}>
                <text x={middle} y="11">
                  {words.weekdays[weekdayOf(day) - 1]}
                </text>
                <text x={middle} y="23">
                  {dayOfMonth}
                </text>
                {turn % narrow === 0 ? (
                  <text x={middle} y="34">
                    {words.months[month - 1]}
                  </text>
                ) : null}
              </g>
            ) : null}
          </>
        );
      })}
    </>
  );
};

const Lane: FC<{ mark: ChainMark; top: number; axis: Axis; words: string }> = ({ mark, top, axis, words }) => {
  const at = momentOf(mark);
  const state = mark.hangs ? `${mark.state} hangs` : mark.state;
  return (
    <g class={`lane ${state}`} data-step={mark.n === null ? mark.kind : `${mark.kind}-${mark.n}`}>
      <line class="span" x1={place(mark.opens, axis)} x2={place(mark.due, axis)} y1={top + SHAPE} y2={top + SHAPE} />
      <Shape id={symbolOf(mark)} at={at} top={top} axis={axis} />
      <Words at={at} top={top} axis={axis} state={state}>
        {words}
      </Words>
    </g>
  );
};

const Shape: FC<{ id: string; at: number; top: number; axis: Axis }> = ({ id, at, top, axis }) => (
  <use href={`#${id}`} x={place(at, axis)} y={top + SHAPE} />
);

/** Beside the shape on the side where there is more room. */
const Words: FC<{ at: number; top: number; axis: Axis; state: string; children: string }> = ({
  at,
  top,
  axis,
  state,
  children,
}) => {
  const along = alongOf(at, axis);
  const anchor = along > 66 ? "end" : along < 34 ? "start" : "middle";
  const aside = anchor === "end" ? 8 : anchor === "start" ? -8 : 0;
  return (
    <text class={`words ${state}`} x={place(at, axis)} dx={aside} y={top + WORDS} text-anchor={anchor}>
      {children}
    </text>
  );
};

const Now: FC<{ shown: ChainShown; axis: Axis; zone: Zone; catalogue: Catalogue; height: number }> = ({
  shown: { now },
  axis,
  zone,
  catalogue: { picture, time },
  height,
}) => {
  const along = alongOf(now, axis);
  const [anchor, aside] = along > 70 ? (["end", -4] as const) : (["start", 4] as const);
  const isHere = isWithin(now, axis);
  const words = isHere ? shortTime(wholeMinute(now), zone, time) : dateInWords(zone.dayAt(now), time);
  const arrow = isHere ? "" : now < axis.from ? "← " : "→ ";
  return (
    <g class="now-mark">
      {isHere ? <line x1={place(now, axis)} x2={place(now, axis)} y1={HEAD - 6} y2={height} /> : null}
      <text x={place(now, axis)} dx={aside} y={height - 5} text-anchor={anchor}>
        {`${arrow}${picture.now} ${words}`}
      </text>
    </g>
  );
};

/** What stands beside a shape: what it is, and when, or what has become of it. */
const wordsOf = (
  { kind, n, state, hangs, ...mark }: ChainMark,
  { marks }: ChainShown,
  zone: Zone,
  { picture, page, time }: Catalogue,
): string => {
  const isOneOfSeveral = n !== null && marks.some((other) => other.kind === kind && other.n !== n);
  const name = isOneOfSeveral ? fill(picture.look, { n: String(n) }) : picture.steps[kind];
  if (state === "done" || state === "off" || state === "asked") return `${name}: ${page.states[state]}`;
  const at = momentOf({ kind, ...mark });
  if (hangs) return `${name} ${fill(picture.about, { day: dateInWords(zone.dayAt(at), time) })}`;
  // As in the list: nobody is told to begin a second too early, or to end one too late.
  const said = isDoneFrom({ kind })
    ? fill(picture.from, { at: shortTime(Math.ceil(at / MINUTE) * MINUTE, zone, time) })
    : fill(picture.by, { at: shortTime(wholeMinute(at), zone, time) });
  return `${name} ${said}`;
};

const labelOf = (shown: ChainShown, zone: Zone, catalogue: Catalogue): string => {
  const { label, labelNext } = catalogue.picture;
  const { marks, colour } = shown;
  const done = marks.filter(({ state }) => state === "done").length;
  const next = marks.find(({ state }) => state !== "done" && state !== "off");
  return fill(next ? labelNext : label, {
    done: String(done),
    count: String(marks.length),
    at: longTime(colour, zone, catalogue.time),
    next: next ? wordsOf(next, shown, zone, catalogue) : "",
  });
};
