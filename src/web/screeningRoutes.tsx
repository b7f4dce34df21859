/**
 * The health questions behind a client's link: asked, answered, and the agreement to keep the answers taken back. Every
 * address is the same for every answer, and no answer is told back outside the form it came by.
 */
import { type Context, Hono } from "hono";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import { eventUid } from "../plan/uid.ts";
import type { QuestionsAsked } from "../salon/askQuestions.ts";
import type { ConsentSaid } from "../salon/consent.ts";
import type { Outcome } from "../salon/fault.ts";
import type { GivenAnswers } from "../salon/screening.ts";
import { formatInstant } from "../time/instant.ts";
import { clientClaim } from "./admit.ts";
import { clientContext } from "./clientContext.ts";
import { answersFrom, consentForm, consentRequest, formFields, screeningForm, screeningRequest } from "./doors.ts";
import { originOf, salonNamed, type Service } from "./env.ts";
import { PAGE_HEADERS } from "./layout.tsx";
import { MessagePage } from "./messagePage.tsx";
import { questionsJson } from "./planJson.ts";
import { prefersHtml } from "./prefersHtml.ts";
import { readOnce } from "./once.ts";
import { problem, wordsOf } from "./problems.ts";
import type { Tried } from "./questionsForm.tsx";
import { check, isForm, type Read, readForm, readJson } from "./readBody.ts";
import { isOfLink, refuseLink } from "./refuseLink.tsx";
import { ScreeningPage } from "./screeningPage.tsx";

export const screeningRoutes = new Hono<Service>();

type Claim = NonNullable<ReturnType<typeof clientClaim>>;
const UNKNOWN = { code: "link-unknown" } as const;

const salonOf = (c: Context<Service>, { salon }: Claim) => salonNamed(c.env, salon);
const addressOf = (link: string): string => `/c/${link}/screening`;

screeningRoutes.get("/c/:link/screening", async (c) => {
  const isPage = prefersHtml(c.req.header("accept"));
  const claim = clientClaim(c.req.param("link"), c.env.LINK_SECRET);
  if (!claim) return refuseLink(c, UNKNOWN, isPage);
  const asked = await questionsOf(c, claim, c.req.query("appointment") ?? null);
  if (!asked.ok) return refuseLink(c, asked.fault, isPage);
  if (isPage) return page(c, c.req.param("link"), claim, asked.value, null, 200);
  const headers = { "cache-control": "private, no-store", "referrer-policy": "no-referrer", vary: "Accept" };
  return c.json(questionsJson(asked.value.shown), 200, headers);
});

screeningRoutes.post("/c/:link/screening", async (c) => {
  const link = c.req.param("link");
  const isPage = isForm(c.req.raw);
  const claim = clientClaim(link, c.env.LINK_SECRET);
  if (!claim) return refuseLink(c, UNKNOWN, isPage);
  const { read, tried } = isPage ? await readAnswers(c.req.raw) : await readAnswersJson(c.req.raw);
  const repeated = read.ok ? readOnce(c.req.raw, link, read.value) : null;
  if (repeated && !repeated.ok) return problem(repeated.fault);
  const answered = read.ok
    ? await salonOf(c, claim).answerQuestions(claim.holder.client, claim.generation, read.value, repeated?.once ?? null)
    : read;
  if (answered.ok) {
    const { outcome, why, booking, isNext } = answered.value;
    const appointment = isNext ? "" : `?appointment=${encodeURIComponent(colourUid(claim, booking))}`;
    const location = `${addressOf(link)}${appointment}`;
    return isPage ? c.redirect(location, 303) : c.json({ outcome, why }, 201, { location });
  }
  const { fault } = answered;
  if (isOfLink(fault)) return refuseLink(c, fault, isPage);
  // What was wrong with a body tells nobody whether a link still holds.
  const asked = await questionsOf(c, claim, tried.booking === null ? null : colourUid(claim, tried.booking));
  if (!asked.ok) return refuseLink(c, asked.fault, isPage);
  if (!isPage) return problem(fault);
  return page(c, link, claim, asked.value, { ...tried, fault }, wordsOf(fault).status);
});

screeningRoutes.post("/c/:link/consent", async (c) => {
  const link = c.req.param("link");
  const isPage = isForm(c.req.raw);
  const claim = clientClaim(link, c.env.LINK_SECRET);
  if (!claim) return refuseLink(c, UNKNOWN, isPage);
  const read = isPage ? await readForm(c.req.raw, consentForm) : await readJson(c.req.raw, consentRequest);
  if (!read.ok) {
    const asked = await questionsOf(c, claim, null);
    if (!asked.ok) return refuseLink(c, asked.fault, isPage);
    if (!isPage) return problem(read.fault);
    const { title, detail, status } = wordsOf(read.fault);
    const message = { heading: `This was not saved: ${title.toLowerCase()}`, text: detail, back: `/c/${link}` };
    const { country } = asked.value.settings;
    return c.html(<MessagePage message={message} country={country} />, status as 422, PAGE_HEADERS);
  }
  const said = await salonOf(c, claim).withdrawConsent(claim.holder.client, claim.generation, isPage);
  if (!said.ok) return refuseLink(c, said.fault, isPage);
  if (isPage) return c.redirect(`/c/${link}`, 303);
  return said.value.isNew
    ? c.json(consentJson(said.value), 201, { location: `/c/${link}` })
    : c.json(consentJson(said.value), 200);
});

const consentJson = ({ held, language }: ConsentSaid) => {
  const { kept } = catalogueOf(language).questions;
  if (held === null) return { consent: false, at: null, why: { code: "never-given", text: kept.never } };
  const why = held.given
    ? { code: "consent-given", text: kept.given }
    : { code: "consent-withdrawn", text: `${kept.deleted} ${kept.followed}` };
  return { consent: held.given, at: formatInstant(held.at), why };
};

const colourUid = ({ salon }: Claim, booking: string): string => eventUid(salon, booking, "colour", null);

const questionsOf = (c: Context<Service>, claim: Claim, appointment: string | null): Promise<Outcome<QuestionsAsked>> =>
  salonOf(c, claim).questions(claim.holder.client, claim.generation, appointment);

interface ReadAnswers {
  readonly read: Read<GivenAnswers>;
  readonly tried: Omit<Tried, "fault"> & { readonly booking: string | null };
}

const NOTHING = { chosen: new Map<string, string>(), agreed: false, booking: null };

const readAnswersJson = async (request: Request): Promise<ReadAnswers> => {
  const read = await readJson(request, screeningRequest);
  return { read: read.ok ? { ok: true, value: { ...read.value, answers: read.value.answers } } : read, tried: NOTHING };
};

const readAnswers = async (request: Request): Promise<ReadAnswers> => {
  const fields = await readForm(request, formFields);
  if (!fields.ok) return { read: fields, tried: NOTHING };
  const gathered = answersFrom(fields.value);
  const read = check(gathered, screeningForm);
  const chosen = new Map(Object.entries(gathered.answers).flatMap(([id, answer]) => (answer ? [[id, answer]] : [])));
  const { booking = null, consent } = fields.value;
  const agreed = consent === "true" || consent === "on";
  return {
    read: read.ok ? { ok: true, value: { ...read.value, answers: read.value.answers } } : read,
    tried: { chosen, agreed, booking },
  };
};

const page = (
  c: Context<Service>,
  link: string,
  claim: Claim,
  asked: QuestionsAsked,
  tried: Tried | null,
  status: number,
): Response | Promise<Response> => {
  const context = clientContext(claim.salon, asked.settings, `${originOf(c.env, c.req.raw)}/c/${link}`);
  return c.html(<ScreeningPage asked={asked} context={context} tried={tried} />, status as 200, {
    ...PAGE_HEADERS,
    vary: "Accept",
  });
};
