/** The first visit's second page: what was understood of the diary, or why it could not be read. */
import type { FC } from "hono/jsx";
import type { CommonTitle } from "../../../diary/commonTitles.ts";
import type { DiaryReport } from "../../../salon/types.ts";
import { DeskPage } from "../frame.tsx";
import type { Signed } from "../desk.ts";
import { DiaryForm } from "./diaryForm.tsx";
import { Steps } from "./steps.tsx";
import { TitlesForm } from "./titlesForm.tsx";
import { type Examples, Understood } from "./understood.tsx";

export interface DiaryShown {
  readonly report: DiaryReport | null;
  readonly examples: Examples;
  readonly titles: readonly CommonTitle[];
  /** Typed, or what holds. */
  readonly address: string;
  readonly fault: string | null;
}

export const FirstDiaryPage: FC<{ signed: Signed; shown: DiaryShown }> = ({ signed, shown }) => {
  const { report, examples, titles, address, fault } = shown;
  const { settings } = signed.head;
  const isRead = report !== null && (report.status === "read" || report.status === "unchanged");
  const isOne = settings.diaries.length === 1;
  const form = <DiaryForm signed={signed} address={address} fault={fault} />;
  return (
    <DeskPage title="First visit" place={null} signed={signed}>
      <h1>A new salon</h1>
      <Steps now="diary" />
      <section class="card first-visit">
        <h2>{isRead ? "What was understood" : "The diary"}</h2>
        {report === null || report.status === "never-read" ? <p>No diary has been read yet.</p> : null}
        {report !== null && report.reason && report.status !== "never-read" ? (
          <p class="mark" role={isRead ? undefined : "alert"}>
            {isRead ? "" : "It could not be read. "}
            {report.reason.text}
          </p>
        ) : null}
        {isRead ? <Understood report={report} examples={examples} settings={settings} /> : null}
        {isRead || !isOne ? null : form}
        {isOne ? null : (
          <p>
            This salon has several diaries: they are looked after under <a href="/desk/diaries">Diaries</a>.
          </p>
        )}
      </section>
      {titles.length === 0 ? null : <TitlesForm signed={signed} titles={titles} />}
      {isRead && isOne ? (
        <details class="first-visit" open={fault !== null}>
          <summary>Another address or file</summary>
          <div class="card">{form}</div>
        </details>
      ) : null}
      <p class="buttons">
        <a class={isRead ? "button first" : "button"} href="/desk/new/tests">
          {isRead ? "On to tests and hours" : "Go on without a diary for now"}
        </a>
      </p>
    </DeskPage>
  );
};
