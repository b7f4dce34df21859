/** Where in the first visit one is. */
import type { FC } from "hono/jsx";

const STEPS = [
  ["salon", "The salon"],
  ["diary", "Its diary"],
  ["tests", "Tests and hours"],
  ["feed", "Its calendar"],
] as const;
export type FirstStep = (typeof STEPS)[number][0];

export const Steps: FC<{ now: FirstStep }> = ({ now }) => {
  const place = STEPS.findIndex(([name]) => name === now);
  return (
    <ol class="visit-steps" aria-label="First visit">
      {STEPS.map(([name, words], index) => (
        <li aria-current={name === now ? "step" : undefined} class={index < place ? "visit-done" : undefined}>
          {words}
          {index < place ? <span class="unseen"> (done)</span> : null}
        </li>
      ))}
    </ol>
  );
};
