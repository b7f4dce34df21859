/** The earliest starts for a new client, to read out on the telephone: one sentence for each way to a test. */
import type { FC } from "hono/jsx";
import { type StepLine, stepLines } from "../../feed/nextToDo.ts";
import type { EarliestStart } from "../../plan/earliest.ts";
import type { Plan, TestRoute } from "../../plan/types.ts";
import type { Instant } from "../../time/instant.ts";
import { minuteIn } from "../minuteIn.ts";
import { deskContext, type Signed } from "./desk.ts";
import { Faults, Field } from "./field.tsx";
import { DeskPage } from "./frame.tsx";
import type { Refused } from "./readFields.ts";
import { stepTime } from "./stepTime.ts";

/** A start with what a client who takes it would have to do. */
export interface StartShown {
  readonly start: EarliestStart;
  /** Null where nothing fits. */
  readonly plan: Plan | null;
}

interface Props {
  readonly signed: Signed;
  readonly starts: readonly StartShown[];
  /** From when it is looked, where that was chosen. */
  readonly from: Instant | null;
  /** As the field has it. */
  readonly after: string;
  readonly refused: Refused | null;
}

const WAYS: Readonly<Record<TestRoute, string>> = {
  "in-salon": "with a test at the salon",
  "home-kit": "with a kit sent home",
};

export const EarliestPage: FC<Props> = ({ signed, starts, from, after, refused }) => {
  const context = deskContext(signed);
  return (
    <DeskPage title="Earliest starts" place="earliest" signed={signed}>
      <h1>The earliest colour for somebody new</h1>
      <form method="get" action="/desk/earliest" class="starts-form">
        <Faults refused={refused} idOf={() => "after"} heading="Counted from now instead." />
        <Field
          id="after"
          name="after"
          label="Not before (left empty: now)"
          type="datetime-local"
          refused={refused}
          value={after}
        />
        <button type="submit">Count</button>
      </form>
      <p class="small">
        {from === null
          ? `Counted from now, ${minuteIn(signed.head.now, context)}`
          : `Counted from ${minuteIn(from, context)}`}
        , in the time of {context.zone.name}. It is what the rules allow and no free chair: look for one in the diary
        from then on.
      </p>
      <div class="starts">
        {starts.map((each) => (
          <Start signed={signed} shown={each} />
        ))}
      </div>
    </DeskPage>
  );
};

const Start: FC<{ signed: Signed; shown: StartShown }> = ({ signed, shown: { start, plan } }) => {
  const context = deskContext(signed);
  const lines = plan === null ? [] : stepLines(plan, context);
  return (
    <section class="card">
      <h2>
        Earliest colour {WAYS[start.route]}:{" "}
        {start.start === null ? "none within 400 days" : minuteIn(start.start, context)}
      </h2>
      <p>{start.why.text}</p>
      {lines.length === 0 ? null : (
        <>
          <h3>What has to happen, to read out</h3>
          <ol class="steps">
            {lines.map((line) => (
              <Line line={line} when={plan && stepTime(plan, line, context)} />
            ))}
          </ol>
        </>
      )}
    </section>
  );
};

/** The questions are asked at once where their time has passed: nothing else of a new test has to have begun by then. */
const Line: FC<{ line: StepLine; when: string | null }> = ({ line: { text, kind, state }, when }) =>
  kind === "screening" && state === "asked" ? (
    <li>
      <span>Answer the salon's questions at once, before anything else</span>
    </li>
  ) : (
    <li>
      <span>{text}</span>
      {when === null ? null : <span class="when">{when}</span>}
    </li>
  );
