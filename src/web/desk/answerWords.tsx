/** A person's answer to an entry, in words: what it was taken for, and which others are taken for the same. */
import type { FC } from "hono/jsx";
import type { EntryAnswer } from "../../diary/answers.ts";
import type { Signed } from "./desk.ts";
import { Press } from "./press.tsx";
import { Their } from "./their.tsx";

export const AnswerWords: FC<{ answer: EntryAnswer }> = ({ answer: { title, as, service, client, phrase } }) => (
  <>
    {/^#[\w-]+$/.test(title) ? (
      "An entry with a very long text"
    ) : (
      <>
        “<Their words={title} />”
      </>
    )}
    :{" "}
    <strong>
      {as === "booking" ? (
        <>
          colour, <Their words={service ?? ""} />
        </>
      ) : as === "test" ? (
        "skin test"
      ) : (
        "not a colour"
      )}
    </strong>
    {client === null ? null : (
      <>
        , of <Their words={client.name} />
      </>
    )}
    .{" "}
    {phrase === "" ? (
      "Of this entry alone."
    ) : (
      <>
        Entries with “<Their words={phrase} />” are taken for the same, unless your words say otherwise.
      </>
    )}
  </>
);

/** What the last press did, with the way back. */
export const AnsweredNote: FC<{ signed: Signed; answer: EntryAnswer; back: string }> = ({ signed, answer, back }) => (
  <div class="said answered-note" role="status">
    <p>
      <AnswerWords answer={answer} />
    </p>
    <TakeBack signed={signed} answer={answer} back={back} />
  </div>
);

export const TakeBack: FC<{ signed: Signed; answer: EntryAnswer; back: string }> = ({ signed, answer, back }) => (
  <Press
    signed={signed}
    to={`/desk/entries/${answer.id}/forget`}
    fields={{}}
    label="Take it back"
    about={`: ${answer.as === "booking" ? "colour" : answer.as}`}
    back={back}
  />
);
