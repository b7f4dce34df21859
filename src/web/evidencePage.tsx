/** The evidence of one appointment on one page, to print and to sign. English, as the salon's own pages are. */
import type { FC } from "hono/jsx";
import type { Evidence, EvidenceRecord } from "../salon/evidence.ts";
import type { ScreeningShown } from "../salon/screenings.ts";
import type { RecordKind } from "../plan/types.ts";
import { detailsOf, KIND_WORDS, reactionLines, viaWords, zonedTime } from "./evidenceWords.ts";
import { Page } from "./layout.tsx";

export const EvidencePage: FC<{ evidence: Evidence }> = ({ evidence }) => {
  const { settings, client, appointment, plan, records, foreign, earlier, stops, until } = evidence;
  const { zone } = settings;
  const of = (...kinds: readonly RecordKind[]): readonly EvidenceRecord[] =>
    records.filter(({ record }) => kinds.includes(record.kind));
  return (
    <Page title="Skin test record" language="en-GB">
      <div class="sheet">
        <h1>{settings.name}</h1>
        <h2>Skin test record</h2>
        <dl>
          <dt>Client</dt>
          <dd>{client.name}</dd>
          <dt>Appointment</dt>
          <dd>{appointment === null ? "no longer in the diary" : zonedTime(appointment.start, zone)}</dd>
          {appointment === null ? null : (
            <>
              <dt>Service</dt>
              <dd>
                {appointment.service} (diary {appointment.diary})
              </dd>
            </>
          )}
          {appointment?.cancelledAt ? (
            <>
              <dt>Cancelled</dt>
              <dd>{zonedTime(appointment.cancelledAt, zone)}</dd>
            </>
          ) : null}
          {plan === null ? null : (
            <>
              <dt>As it stands</dt>
              <dd>
                {plan.standing}: {plan.why.map(({ text }) => text).join(" ")}
              </dd>
            </>
          )}
        </dl>
        <Part title="Screening" records={of("screened")} zone={zone} empty="No screening is recorded." />
        <Answers screenings={evidence.screenings} zone={zone} />
        <Part
          title="The test"
          records={of("route", "posted", "arrived", "applied", "removed")}
          zone={zone}
          empty="No test of this appointment's own is recorded."
        />
        <Part title="Looks" records={of("read")} zone={zone} empty="No look is recorded. Not read is not clear." />
        {foreign.length === 0 ? null : (
          <Part title="Told under another client's name, and not counted here" records={foreign} zone={zone} empty="" />
        )}
        {earlier.length === 0 ? null : (
          <Part title="The earlier test it rests on" records={earlier} zone={zone} empty="" />
        )}
        <Part title="Reactions" records={of("reacted")} zone={zone} empty="No reaction is recorded." />
        {stops.length === 0 ? null : (
          <Part title="Stops told under other appointments" records={stops} zone={zone} empty="" />
        )}
        <Part title="Confirmed" records={of("confirmed")} zone={zone} empty="Nobody has confirmed this appointment." />
        <Part title="Notes and corrections" records={of("note", "correction")} zone={zone} empty="None." />
        <Decisions evidence={evidence} />
        <p class="small">
          A clear test does not mean that no reaction will happen. The product's own instructions, the insurer and local
          rules win over any time given here. Made {zonedTime(evidence.at, zone)}
          {until === null ? "." : `; these records are kept until ${zonedTime(until, zone)}.`}
        </p>
        <Signatures />
      </div>
    </Page>
  );
};

const Part: FC<{ title: string; records: readonly EvidenceRecord[]; zone: string; empty: string }> = ({
  title,
  records,
  zone,
  empty,
}) => (
  <section>
    <h3>{title}</h3>
    {records.length === 0 ? <p>{empty}</p> : records.map((each) => <Entry entry={each} zone={zone} />)}
  </section>
);

/** A record beside what set it aside: both stay. */
const Entry: FC<{ entry: EvidenceRecord; zone: string }> = ({ entry: { record, correctedBy }, zone }) => {
  const there = record.circumstances.zone ?? zone;
  const lines = reactionLines(record.reaction);
  return (
    <div class={correctedBy === null ? "entry" : "entry aside"} id={record.id}>
      <p>
        <strong>{KIND_WORDS[record.kind]}</strong> {zonedTime(record.at, there)}
        {correctedBy === null ? null : <em> — set aside by {correctedBy}</em>}
      </p>
      {detailsOf(record).map((detail) => (
        <p class="detail">{detail}</p>
      ))}
      {lines.map(([heading, told]) => (
        <p class="detail">
          {heading}: {told}
        </p>
      ))}
      <p class="small">
        Record {record.id}, told {zonedTime(record.recorded, there)}, {viaWords(record)}
        {record.booking === null ? ", of no appointment" : ""}
      </p>
    </div>
  );
};

const Answers: FC<{ screenings: readonly ScreeningShown[]; zone: string }> = ({ screenings, zone }) => (
  <>
    {screenings.map(({ id, at, version, answers, withdrawn, questions }) => (
      <div class="entry">
        <p>
          <strong>Answers</strong> {zonedTime(at, zone)}, questions version {version} ({id})
        </p>
        {answers === null ? (
          <p class="detail">
            Not kept any more: consent withdrawn{withdrawn === null ? "" : ` ${zonedTime(withdrawn, zone)}`}.
          </p>
        ) : (
          questions.map((question) => (
            <p class="detail">
              {question.text} {answers[question.id] ?? "not asked"}
            </p>
          ))
        )}
      </div>
    ))}
  </>
);

const Decisions: FC<{ evidence: Evidence }> = ({ evidence: { decisions, consents, settings } }) =>
  decisions.length + consents.length === 0 ? null : (
    <section>
      <h3>Who the client is, and her consent</h3>
      {decisions.map(({ kind, at, by, other, reason }) => (
        <p class="detail">
          {zonedTime(at, settings.zone)}: {kind}
          {other === null ? "" : ` (${other})`}
          {by === null ? "" : `, ${by}`}
          {reason === null ? "" : `, ${reason}`}
        </p>
      ))}
      {consents.map(({ given, at }) => (
        <p class="detail">
          {zonedTime(at, settings.zone)}: consent to keeping health answers {given ? "given" : "withdrawn"}
        </p>
      ))}
    </section>
  );

const Signatures: FC = () => (
  <div class="signatures">
    {["Client", "For the salon"].map((who) => (
      <p>
        <span class="line" />
        {who}, date
      </p>
    ))}
  </div>
);
