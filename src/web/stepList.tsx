/** Every step of a plan as a list: what and by when, how far it has come, the exact times, and how to do it on demand. */
import type { FC } from "hono/jsx";
import type { StepLine } from "../feed/nextToDo.ts";

export const StepList: FC<{ lines: readonly StepLine[]; howWords?: string }> = ({
  lines,
  howWords = "How, and why",
}) => (
  <ol class="steps">
    {lines.map(({ text, state, stateWords, when, whenIf, notes }) => (
      <li class={state}>
        <span>{text}</span>
        <span class="state">{stateWords}</span>
        {/* Of what is done its planned times say nothing any more, and how to do it would only be read by mistake. */}
        {state === "done" || (when === null && whenIf === null) ? null : <span class="when">{when ?? whenIf}</span>}
        {state === "done" || notes.length === 0 ? null : (
          <details>
            <summary>{howWords}</summary>
            {notes.map((note) => (
              <p>{note}</p>
            ))}
          </details>
        )}
      </li>
    ))}
  </ol>
);
