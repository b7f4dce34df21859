/**
 * A card to print and hand over: what to do next, the way to her page, and the emergency words. No health result stands on it,
 * and not her name: a card is left on tables.
 */
import type { FC } from "hono/jsx";
import { emergencyWords } from "../../feed/emergency.ts";
import { appointmentWords, nextToDo, stepLines } from "../../feed/nextToDo.ts";
import type { FeedContext } from "../../feed/types.ts";
import type { Plan } from "../../plan/types.ts";
import { clientContext } from "../clientContext.ts";
import { minuteIn } from "../minuteIn.ts";
import { QrCode } from "../qr.tsx";
import type { ClientLinks } from "./clientLinkCard.tsx";
import { deskContext, type Signed } from "./desk.ts";
import { DeskPage } from "./frame.tsx";
import { Press } from "./press.tsx";
import { stepTime } from "./stepTime.ts";

interface Props {
  readonly signed: Signed;
  readonly id: string;
  readonly plans: readonly Plan[];
  readonly links: ClientLinks;
}

export const ClientCardPage: FC<Props> = ({ signed, id, plans, links }) => (
  <DeskPage title="A card to print" place="clients" signed={signed}>
    <div class="card-page">
      <div class="unprinted">
        <p class="small">Client {id}</p>
        <h1>A card to hand over</h1>
        <p>
          Print it on A4 and cut along the line. What to do next changes: the card says it as it is today, the page
          behind the code as it is then.
        </p>
        <div class="actions">
          <button type="button" class="first" data-print data-script hidden>
            Print
          </button>
          <Press
            signed={signed}
            to={`/desk/clients/${id}/link`}
            fields={{ what: "given" }}
            label="I gave it to her"
            back={`/desk/clients/${id}`}
          />
          <a class="button" href={`/desk/clients/${id}`}>
            Everything about her
          </a>
        </div>
      </div>
      <Handout signed={signed} plans={plans} links={links} />
    </div>
  </DeskPage>
);

const Handout: FC<Omit<Props, "id">> = ({ signed, plans, links }) => {
  const { settings, now } = signed.head;
  const { contact } = settings;
  const context = clientContext(signed.salonId, settings, links.page);
  const next = plans.find(({ booking, standing }) => booking.start > now && standing !== "cancelled");
  return (
    <section class="handout" aria-label="The card">
      <p class="from">{settings.name}</p>
      {next ? (
        <Next plan={next} context={context} />
      ) : (
        <p class="next">When you have an appointment for colour, what to do before it stands on your page.</p>
      )}
      {next ? <p>{appointmentWords(next, context)}</p> : null}
      <div class="code">
        <QrCode address={links.page} label="QR code of her page" />
        <p>
          Your own page: what to do, by when, and how to tell us. Point your phone's camera here, or write
          <span class="written">{links.page.replace(/^https?:\/\//, "")}</span>
        </p>
      </div>
      <p class="emergency">{emergencyWords(settings.country)}</p>
      <p class="foot">
        {contact.phone === null ? "Ask at the salon for its telephone number." : `Telephone ${contact.phone}.`} As of{" "}
        {minuteIn(now, deskContext(signed))}. A clear test does not mean that no reaction will happen.
      </p>
    </section>
  );
};

/** What to do next, with its date: on paper a weekday alone would tell too little. */
const Next: FC<{ plan: Plan; context: FeedContext }> = ({ plan, context }) => {
  const { headline } = nextToDo(plan, context);
  const line = stepLines(plan, context).find(({ text }) => text === headline);
  const when = line ? stepTime(plan, line, context) : null;
  return (
    <>
      <p class="next">{headline}</p>
      {when === null ? null : <p>That is {when}.</p>}
    </>
  );
};
