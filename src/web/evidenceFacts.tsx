/** Short facts under their labels. Silence is never a result, and what was told and set aside is no silence. */
import type { FC } from "hono/jsx";

export interface FactShown {
  readonly label: string;
  readonly lines: readonly string[];
  /** Whether it was told and a correction set it aside. */
  readonly isSetAside?: boolean;
  /** Whether it takes a line of its own. */
  readonly isWhole?: boolean;
}

export const Facts: FC<{ facts: readonly FactShown[] }> = ({ facts }) => (
  <dl class="facts">
    {facts.map(({ label, lines, isSetAside = false, isWhole = false }) => (
      <div class={isWhole ? "whole" : undefined}>
        <dt>{label}</dt>
        <dd>{lines.length > 0 ? lines.map((line) => <p>{line}</p>) : isSetAside ? SET_ASIDE : NOT_RECORDED}</dd>
      </div>
    ))}
  </dl>
);

const NOT_RECORDED = "not recorded";
const SET_ASIDE = "told, set aside by a correction (see below)";
