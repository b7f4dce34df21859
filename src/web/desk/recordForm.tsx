/** A record made by one press; what else is known of it (when, which product, where on the skin) opens beneath. */
import type { Child, FC } from "hono/jsx";
import type { Ground, Outcome, RecordKind, TestRoute } from "../../plan/types.ts";
import type { Signed } from "./desk.ts";
import { Fields } from "./press.tsx";
import { timesOf } from "./times.ts";

/** One way to press. */
export interface RecordChoice {
  readonly kind: RecordKind;
  readonly outcome?: Outcome;
  readonly route?: TestRoute;
  /** Of a do-not-colour. */
  readonly ground?: Ground;
  readonly label: string;
  readonly isAlarm?: boolean;
}

/** What may be told besides. */
export type Detail = "product" | "site" | "note";

/** A choice as one field, since of several buttons of a form only the pressed one is sent: `read clear - -`. */
export const choiceOf = ({ kind, outcome, route, ground }: Omit<RecordChoice, "label" | "isAlarm">): string =>
  [kind, outcome ?? "-", route ?? "-", ground ?? "-"].join(" ");

/**
 * @param booking named as the desk names it
 * @param about who and what, read out after each button's label
 * @param first whether the first choice is the usual one
 */
export const RecordForm: FC<{
  signed: Signed;
  booking: string;
  choices: readonly RecordChoice[];
  about: string;
  details?: readonly Detail[];
  product?: string | null;
  first?: boolean;
  back?: string;
  children?: Child;
}> = ({ signed, booking, choices, about, details = [], product = null, first = true, back, children }) => {
  const { field } = timesOf(signed);
  return (
    <form method="post" action="/desk/records" class="record">
      <Fields signed={signed} back={back} />
      <input type="hidden" name="booking" value={booking} />
      <div class="presses">
        {choices.map((choice, index) => (
          <button
            type="submit"
            name="choice"
            value={choiceOf(choice)}
            class={choice.isAlarm ? "alarm" : index === 0 && first ? "first" : "quiet"}
          >
            {choice.label}
            <span class="unseen">: {about}</span>
          </button>
        ))}
      </div>
      {children}
      <details>
        <summary>
          Another time{details.includes("product") ? ", product, place" : ", a note"}
          <span class="unseen">: {about}</span>
        </summary>
        <div class="fields">
          <label>
            <span>When (leave empty for now)</span>
            <input type="datetime-local" name="when" max={field(signed.head.now)} />
          </label>
          {details.includes("product") ? (
            <>
              <label>
                <span>Product</span>
                <input name="product" value={product ?? ""} maxlength={200} autocomplete="off" />
              </label>
              <label>
                <span>Batch</span>
                <input name="batch" maxlength={200} autocomplete="off" />
              </label>
            </>
          ) : null}
          {details.includes("site") ? (
            <label>
              <span>Where on the skin</span>
              <input name="site" maxlength={200} autocomplete="off" />
            </label>
          ) : null}
          <label>
            <span>Note</span>
            <input name="note" maxlength={2000} autocomplete="off" />
          </label>
        </div>
      </details>
    </form>
  );
};
