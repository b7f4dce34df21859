/** What the hatching of a picture means, in words: only what occurs in it, and the names of the days that have one. */
import type { FC } from "hono/jsx";
import { fill } from "../feed/fill.ts";
import type { Catalogue } from "../feed/language/catalogue.ts";
import { dateInWords } from "../feed/timeInWords.ts";
import type { Shade } from "../plan/shades.ts";
import { type Axis, isWithin } from "./chainAxis.ts";
import { POST_SHUT, SALON_SHUT } from "./chainSymbols.tsx";

export const ShutDays: FC<{ shades: readonly Shade[]; axis: Axis; catalogue: Catalogue }> = ({
  shades,
  axis,
  catalogue: { picture, time },
}) => {
  const shown = shades.filter(({ from }) => isWithin(from, axis));
  if (shown.length === 0) return null;
  const kinds = [
    { salon: true, post: false, words: picture.shut.salon },
    { salon: false, post: true, words: picture.shut.post },
    { salon: true, post: true, words: picture.shut.both },
  ].filter(({ salon, post }) => shown.some((shade) => shade.salon === salon && shade.post === post));
  const named = shown.flatMap(({ day, name }) =>
    name === null ? [] : [fill(picture.shutDay, { day: dateInWords(day, time), name })],
  );
  return (
    <figcaption class="small">
      {kinds.map(({ salon, post, words }) => (
        <span class="shut-kind">
          <svg width="22" height="16" aria-hidden="true">
            {salon ? <rect width="22" height="16" fill={`url(#${SALON_SHUT})`} /> : null}
            {post ? <rect width="22" height="16" fill={`url(#${POST_SHUT})`} /> : null}
          </svg>
          {words}
        </span>
      ))}
      {named.length === 0 ? null : <span>{named.join("; ")}</span>}
    </figcaption>
  );
};
