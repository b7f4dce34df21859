/** How an appointment stands, in a word with a shape of its own: no colour is needed to tell them apart. */
import type { FC } from "hono/jsx";
import type { Standing } from "../../plan/types.ts";

const MARKS: Readonly<Record<Standing, readonly [shape: string, words: string]>> = {
  "on-track": ["○", "On track"],
  due: ["◐", "Something to do now"],
  late: ["▲", "Late"],
  "no-time": ["■", "No time left for a test"],
  ready: ["✓", "Ready"],
  stop: ["✕", "Stopped"],
  past: ["–", "Past"],
  cancelled: ["⊘", "Cancelled"],
};

const ALARMS: ReadonlySet<Standing> = new Set(["late", "no-time", "stop"]);

export const StandingMark: FC<{ standing: Standing }> = ({ standing }) => {
  const [shape, words] = MARKS[standing];
  return (
    <span class={ALARMS.has(standing) ? "standing is-alarm" : "standing"}>
      <span aria-hidden="true">{shape}</span> {words}
    </span>
  );
};
