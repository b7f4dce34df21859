/** What a client's link opens besides her feed: her page, and what she tells. */
import { type Context, Hono } from "hono";
import type * as z from "zod";
import { LATE_REACTION_DAYS } from "../bounds.ts";
import { fill } from "../feed/fill.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import type { FeedContext } from "../feed/types.ts";
import type { Plan } from "../plan/types.ts";
import { fail, type Outcome } from "../salon/fault.ts";
import type { ClientPage as Opened } from "../salon/salon.ts";
import type { FactDraft } from "../salon/records.ts";
import type { Recorded } from "../salon/types.ts";
import { DAY_SECONDS, type Instant, type Wall } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { clientClaim } from "./admit.ts";
import { clientContext } from "./clientContext.ts";
import { ClientPage } from "./clientPage.tsx";
import type { NotSaved } from "./clientTell.tsx";
import { clientForm, clientRecord, filledFields, formFields, formReportOf, reportOf } from "./doors.ts";
import { originOf, salonNamed, type Service } from "./env.ts";
import { PAGE_HEADERS } from "./layout.tsx";
import { minuteIn } from "./minuteIn.ts";
import { factJson } from "./planJson.ts";
import { readOnce } from "./once.ts";
import { pressedFields } from "./pressed.ts";
import { type AnyFault, problem, wordsOf } from "./problems.ts";
import { check, isForm, type Read, readForm, readJson } from "./readBody.ts";
import { refuseLink } from "./refuseLink.tsx";

export const clientRoutes = new Hono<Service>();

/** While a reaction may still show, an appointment stays on the page; a cancelled one only where a test went on. */
const isOfInterest = ({ standing, booking, asOf, applied }: Plan): boolean =>
  asOf <= booking.start + LATE_REACTION_DAYS * DAY_SECONDS && (standing !== "cancelled" || applied);

/** What is ahead comes first once the day of an appointment is over (counting.md 23); until then the appointment itself does. */
const inOrder = (plans: readonly Plan[], zone: Zone): readonly Plan[] => {
  const isOver = ({ booking, asOf }: Plan): boolean => asOf >= zone.startOfDay(zone.dayAt(booking.start) + 1);
  return [...plans.filter((plan) => !isOver(plan)), ...plans.filter((plan) => isOver(plan)).toReversed()];
};

/** Whether a browser shows the page to somebody: programs that look at a link before it is sent on do not say so. */
const isOpenedByPerson = ({ headers }: Request): boolean => headers.get("sec-fetch-dest") === "document";

clientRoutes.get("/c/:link", async (c) => {
  const link = c.req.param("link");
  const claim = clientClaim(link, c.env.LINK_SECRET);
  const opened: Outcome<Opened> = claim
    ? await salonNamed(c.env, claim.salon).clientPage(
        claim.holder.client,
        claim.generation,
        isOpenedByPerson(c.req.raw),
      )
    : fail({ code: "link-unknown" });
  if (!claim || !opened.ok) {
    const isPage = /\btext\/html\b/.test(c.req.header("accept") ?? "");
    return refuseLink(c, opened.ok ? { code: "link-unknown" } : opened.fault, isPage);
  }
  return showPage(c, link, claim, opened.value, null, 200);
});

clientRoutes.post("/c/:link/records", async (c) => {
  const link = c.req.param("link");
  const isPage = isForm(c.req.raw);
  const claim = clientClaim(link, c.env.LINK_SECRET);
  if (!claim) return refuseLink(c, { code: "link-unknown" }, isPage);
  const { read, sent } = await readReport(c.req.raw, Math.floor(Date.now() / 1000));
  const asked = read.ok ? readOnce(c.req.raw, link, read.value.print) : null;
  if (asked && !asked.ok) return problem(asked.fault);
  const salon = salonNamed(c.env, claim.salon);
  const { client } = claim.holder;
  const added: Outcome<Recorded> | Read<Recorded> = read.ok
    ? await salon.addClientRecord(client, claim.generation, read.value.draft, read.value.pressed, asked?.once ?? null)
    : read;
  if (added.ok)
    return isPage ? c.redirect(`/c/${link}`, 303) : c.json(factJson(added.value), 201, { location: `/c/${link}` });
  if (!isPage) return problem(added.fault);
  // What was wrong with a form tells nobody whether a link still holds.
  const opened: Outcome<Opened> = await salon.clientPage(client, claim.generation, false);
  if (!opened.ok) return refuseLink(c, opened.fault, true);
  const words = notSavedWords(added.fault, clientContext(claim.salon, opened.value.settings, ""), opened.value.now);
  return showPage(c, link, claim, opened.value, { ...sent, words }, wordsOf(added.fault).status);
});

const showPage = (
  c: Context<Service>,
  link: string,
  { salon }: Pick<NonNullable<ReturnType<typeof clientClaim>>, "salon">,
  opened: Opened,
  notSaved: NotSaved | null,
  status: number,
): Response | Promise<Response> => {
  const { settings, plans } = opened;
  const page = `${originOf(c.env, c.req.raw)}/c/${link}`;
  const shown = inOrder(
    plans.filter((plan) => isOfInterest(plan)),
    clientContext(salon, settings, page).zone,
  );
  return c.html(
    <ClientPage
      opened={opened}
      plans={shown}
      context={clientContext(salon, settings, page)}
      feedUrl={`${page}/${settings.show.words === "discreet" ? "reminders" : "skin-test"}.ics`}
      notSaved={notSaved}
    />,
    status as 200,
    PAGE_HEADERS,
  );
};

/** Why a press was not kept: in words of her language where they are usual, else in those of the table. */
const notSavedWords = (fault: AnyFault, context: FeedContext, now: Instant): string => {
  const { notSaved } = catalogueOf(context.settings.language).report;
  if (fault.code === "no-such-booking") return notSaved.gone;
  const places =
    fault.code === "request-refused" ? fault.errors : fault.code === "record-refused" ? fault.refusals : [];
  if (places.some(({ at }) => at === "kind")) return notSaved.nothing;
  if (places.some(({ at }) => at === "at" || at === "when"))
    return fill(notSaved.time, { now: minuteIn(now, context) });
  return wordsOf(fault).detail;
};

interface Told {
  readonly draft: FactDraft;
  /** What was asked, before anything was filled in. */
  readonly print: unknown;
  /** Null where the body was no form of a page. */
  readonly pressed: { readonly when: Wall | null } | null;
}

interface ReadReport {
  readonly read: Read<Told>;
  /** For the page that is shown again. */
  readonly sent: Omit<NotSaved, "words">;
}

const NOTHING_SENT = { booking: null, when: "" };

const readReport = async (request: Request, now: Instant): Promise<ReadReport> => {
  if (isForm(request)) {
    const fields = await readForm(request, formFields);
    if (!fields.ok) return { read: fields, sent: NOTHING_SENT };
    const { booking = null, when = "" } = fields.value;
    const read = check(filledFields(pressedFields(fields.value)), clientForm);
    return { read: read.ok ? toldByForm(read.value, now) : read, sent: { booking, when } };
  }
  const read = await readJson(request, clientRecord);
  if (!read.ok) return { read, sent: NOTHING_SENT };
  const draft = reportOf(read.value, now);
  return { read: { ok: true, value: { draft, print: read.value, pressed: null } }, sent: NOTHING_SENT };
};

const toldByForm = (form: z.infer<typeof clientForm>, now: Instant): Read<Told> => ({
  ok: true,
  value: { draft: formReportOf(form, now), print: form, pressed: { when: form.when ?? null } },
});
