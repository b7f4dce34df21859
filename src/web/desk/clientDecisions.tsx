/** What a person has to decide about who a client is, in plain words, each with its buttons. */
import type { Child, FC } from "hono/jsx";
import type { Why } from "../../plan/types.ts";
import { NOTE_MAX } from "../../bounds.ts";
import type { ClientShown, LikenessShown } from "../../salon/clientList.ts";
import type { Signed } from "./desk.ts";
import { Field } from "./field.tsx";
import { Fields } from "./press.tsx";
import type { Refused } from "./readFields.ts";
import { Their } from "./their.tsx";

interface Props {
  readonly signed: Signed;
  readonly shown: ClientShown;
  readonly refused: Refused | null;
}

export const ClientDecisions: FC<Props> = ({ signed, shown, refused }) => {
  const { client, questions, possible } = shown;
  const asked = questions.filter(({ code }) => code !== "request-open");
  const isAsked = asked.length > 0;
  return isAsked || possible.length > 0 ? (
    <section class={isAsked ? "card decide" : "card"}>
      <h2>{isAsked ? "You have to decide" : "Who may be she"}</h2>
      {asked.map((question) => (
        <p>
          <strong aria-hidden="true">?</strong> {TEXTS[question.code] ?? question.text}
        </p>
      ))}
      {asked.some(({ code }) => code === "same-person") ? (
        <Decision signed={signed} id={client.id} deed="confirm" refused={refused}>
          <button type="submit" class="first">
            Yes, all of these are one person's
          </button>
        </Decision>
      ) : null}
      {possible.map((other) => (
        <Possible signed={signed} id={client.id} other={other} refused={refused} />
      ))}
    </section>
  ) : null;
};

/** Of the forms on the page, that which was refused. */
export const only = (refused: Refused | null, form: string): Refused | null =>
  refused?.fields.get("form") === form ? refused : null;

const TEXTS: Readonly<Record<string, string>> = {
  "same-person":
    "Several appointments, or an earlier result, stand under this name, and nothing proves that they belong to one person. Say so once, or split off below those that are another's. Until then no result of one counts for another.",
  "possible-stop":
    "Somebody of the same name, address, telephone or appointment has a stop. Find out whether it is this client, and say so below: one person, or two. Until then her appointments do not become ready.",
  "result-of-namesake":
    "Somebody of this name has a clear result on file. Say below whether the two are one person. Until then that result does not count for her.",
} satisfies Record<string, Why["text"]>;

const AGREES: Readonly<Record<LikenessShown["agrees"][number], string>> = {
  name: "the same name",
  email: "the same e-mail address",
  phone: "the same telephone",
  parted: "was one client with her before",
  appointment: "an appointment that was the other's",
};

const Possible: FC<{ signed: Signed; id: string; other: LikenessShown; refused: Refused | null }> = ({
  signed,
  id,
  other,
  refused,
}) => (
  <div class="likeness">
    <p>
      <a href={`/desk/clients/${other.id}`}>
        <Their words={other.name} />
      </a>{" "}
      ({other.id}): {other.agrees.map((each) => AGREES[each]).join(", ")}.{" "}
      {other.stop ? (
        <strong class="turn is-alarm">
          <span aria-hidden="true">✕</span> has a stop
        </strong>
      ) : null}
    </p>
    <Decision signed={signed} id={id} deed="who" other={other.id} refused={refused}>
      <button type="submit" name="deed" value="join">
        One person: join<span class="unseen"> with {other.id}</span>
      </button>
      <button type="submit" name="deed" value="apart">
        Two people<span class="unseen">, this one and {other.id}</span>
      </button>
    </Decision>
  </div>
);

/** One question's buttons, with a reason beside them. */
const Decision: FC<{
  signed: Signed;
  id: string;
  deed: "confirm" | "who";
  other?: string;
  refused: Refused | null;
  children: Child;
}> = ({ signed, id, deed, other, refused, children }) => {
  const form = `${deed}${other ?? ""}`;
  return (
    <form method="post" action={`/desk/clients/${id}/${deed}`} class="stack">
      <Fields signed={signed} />
      <input type="hidden" name="form" value={form} />
      {other === undefined ? null : <input type="hidden" name="with" value={other} />}
      <Reason id={`${form}-reason`} refused={only(refused, form)} />
      <div class="actions">{children}</div>
    </form>
  );
};

export const Reason: FC<{ id: string; refused: Refused | null }> = ({ id, refused }) => (
  <Field id={id} name="reason" label="How you know (if you want to keep it)" refused={refused} maxlength={NOTE_MAX} />
);
