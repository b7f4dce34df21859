/** The salon is made: its key, shown here and never again, and the way on to its diary. */
import type { FC } from "hono/jsx";
import { DeskPage } from "../frame.tsx";
import type { Signed } from "../desk.ts";
import { KeyShown } from "../rules/keys.tsx";
import { DiaryForm } from "./diaryForm.tsx";
import { Steps } from "./steps.tsx";

export const KeyPage: FC<{ signed: Signed; value: string }> = ({ signed, value }) => (
  <DeskPage title="First visit" place={null} signed={signed}>
    <h1>A new salon</h1>
    <Steps now="diary" />
    <section class="card first-visit">
      <h2>The salon's key</h2>
      <p>
        It opens this desk on every other screen. This screen is signed in already. Write the key down or put it into a
        password store: it is shown on this page alone, and nobody can find it again.
      </p>
      <KeyShown value={value} />
    </section>
    <section class="card first-visit">
      <h2>The diary</h2>
      <p>The calendar in which the salon's appointments stand. It is only read, never changed.</p>
      <DiaryForm signed={signed} address="" fault={null} isKeyShown />
    </section>
  </DeskPage>
);
