/** What a client's link opens besides her feed: her page, and what she tells. */
import { Hono } from "hono";
import { LATE_REACTION_DAYS } from "../bounds.ts";
import type { Plan } from "../plan/types.ts";
import { fail, type Outcome } from "../salon/fault.ts";
import type { ClientPage as Opened } from "../salon/salon.ts";
import type { FactDraft } from "../salon/records.ts";
import type { Recorded } from "../salon/types.ts";
import { DAY_SECONDS, type Instant, type Wall } from "../time/instant.ts";
import { clientClaim } from "./admit.ts";
import { clientContext } from "./clientContext.ts";
import { ClientPage } from "./clientPage.tsx";
import { clientForm, clientRecord, filledFields, formFields, formReportOf, reportOf } from "./doors.ts";
import { originOf, salonNamed, type Service } from "./env.ts";
import { PAGE_HEADERS } from "./layout.tsx";
import { MessagePage } from "./messagePage.tsx";
import { factJson } from "./planJson.ts";
import { readOnce } from "./once.ts";
import { problem, wordsOf } from "./problems.ts";
import { check, isForm, type Read, readForm, readJson } from "./readBody.ts";
import { refuseLink } from "./refuseLink.tsx";

export const clientRoutes = new Hono<Service>();

/** While a reaction may still show, an appointment stays on the page; a cancelled one only where a test went on. */
const isOfInterest = ({ standing, booking, asOf, applied }: Plan): boolean =>
  asOf <= booking.start + LATE_REACTION_DAYS * DAY_SECONDS && (standing !== "cancelled" || applied);

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
  const { settings, plans, consent } = opened.value;
  const page = `${originOf(c.env, c.req.raw)}/c/${link}`;
  const context = clientContext(claim.salon, settings, page);
  const shown = plans.filter((plan) => isOfInterest(plan));
  return c.html(
    <ClientPage
      settings={settings}
      plans={shown}
      consent={consent}
      context={context}
      feedUrl={`${page}/${settings.show.words === "discreet" ? "reminders" : "skin-test"}.ics`}
    />,
    200,
    PAGE_HEADERS,
  );
});

clientRoutes.post("/c/:link/records", async (c) => {
  const link = c.req.param("link");
  const claim = clientClaim(link, c.env.LINK_SECRET);
  const told = claim ? await readReport(c.req.raw, Math.floor(Date.now() / 1000)) : fail({ code: "link-unknown" });
  const asked = claim && told.ok ? readOnce(c.req.raw, link, told.value.print) : null;
  if (asked && !asked.ok) return problem(asked.fault);
  const added: Outcome<Recorded> | Read<Recorded> =
    claim && told.ok
      ? await salonNamed(c.env, claim.salon).addClientRecord(
          claim.holder.client,
          claim.generation,
          told.value.draft,
          told.value.pressed,
          asked?.once ?? null,
        )
      : (told as Exclude<typeof told, { ok: true }>);
  if (!isForm(c.req.raw))
    return added.ok ? c.json(factJson(added.value), 201, { location: `/c/${link}` }) : problem(added.fault);
  if (added.ok) return c.redirect(`/c/${link}`, 303);
  const { detail, status } = wordsOf(added.fault);
  const text = added.fault.code === "no-such-booking" ? "This appointment is not there any more." : detail;
  const message = { heading: "This was not saved", text, back: `/c/${link}` };
  const opened =
    claim && (await salonNamed(c.env, claim.salon).clientPage(claim.holder.client, claim.generation, false));
  const country = opened?.ok ? opened.value.settings.country : null;
  return c.html(<MessagePage message={message} country={country} />, status as 422, PAGE_HEADERS);
});

interface Told {
  readonly draft: FactDraft;
  /** What was asked, before anything was filled in. */
  readonly print: unknown;
  /** Null where the body was no form of a page. */
  readonly pressed: { readonly when: Wall | null } | null;
}

const readReport = async (request: Request, now: Instant): Promise<Read<Told>> => {
  if (isForm(request)) {
    const fields = await readForm(request, formFields);
    const read = fields.ok ? check(filledFields(fields.value), clientForm) : fields;
    return read.ok
      ? {
          ok: true,
          value: {
            draft: formReportOf(read.value, now),
            print: read.value,
            pressed: { when: read.value.when ?? null },
          },
        }
      : read;
  }
  const read = await readJson(request, clientRecord);
  return read.ok ? { ok: true, value: { draft: reportOf(read.value, now), print: read.value, pressed: null } } : read;
};
