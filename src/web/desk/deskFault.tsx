/** A page that says what went wrong at the desk, and where to go on. */
import type { Context } from "hono";
import type { FC } from "hono/jsx";
import type { ContentfulStatusCode } from "hono/utils/http-status";
import { Page, PAGE_HEADERS } from "../layout.tsx";
import { type AnyFault, wordsOf } from "../problems.ts";
import { DESK_STYLES_ADDRESS } from "./deskStyles.ts";
import { type DeskService, localPath } from "./desk.ts";

export interface DeskFault {
  readonly status: number;
  readonly heading: string;
  readonly text: string;
  readonly back: string;
  readonly backWords: string;
}

/** @param fault one of the table of failures, or words for this place alone */
export const deskFault = (c: Context<DeskService>, fault: AnyFault | DeskFault): Response | Promise<Response> => {
  const shown = "heading" in fault ? fault : ofTable(fault, c.get("pressed")?.fields.get("back") ?? null);
  return c.html(<FaultPage fault={shown} />, shown.status as ContentfulStatusCode, PAGE_HEADERS);
};

const ofTable = (fault: AnyFault, back: string | null): DeskFault => {
  const { status, title, detail } = wordsOf(fault);
  return { status, heading: title, text: detail, back: localPath(back), backWords: "Back" };
};

const FaultPage: FC<{ fault: DeskFault }> = ({ fault }) => (
  <Page title={`${fault.heading} – desk`} language="en-GB" styles={[DESK_STYLES_ADDRESS]}>
    <section class="card">
      <h1>{fault.heading}</h1>
      <p>{fault.text}</p>
      <p>
        <a href={fault.back}>{fault.backWords}</a>
      </p>
    </section>
  </Page>
);
