/** What a client's link opens besides her feed: her page, and what she tells. */
import { Hono } from "hono";
import type { Plan } from "../plan/types.ts";
import { eventUid } from "../plan/uid.ts";
import { fail, type Outcome } from "../salon/fault.ts";
import type { ClientPage as Opened } from "../salon/salon.ts";
import { Zone } from "../time/zone.ts";
import { clientClaim } from "./admit.ts";
import { ClientPage } from "./clientPage.tsx";
import { originOf, salonNamed, type Service } from "./env.ts";
import { PAGE_HEADERS } from "./layout.tsx";
import { LinkPage } from "./linkPage.tsx";
import { problem } from "./problems.ts";

export const clientRoutes = new Hono<Service>();

/** A past appointment stays on the page until its local day ends. */
const isOfInterest = (plan: Plan, zone: Zone): boolean =>
  plan.standing !== "cancelled" && zone.dayAt(plan.booking.start) >= zone.dayAt(plan.asOf);

clientRoutes.get("/c/:link", async (c) => {
  const link = c.req.param("link");
  const claim = clientClaim(link, c.env.LINK_SECRET);
  const opened: Outcome<Opened> = claim
    ? await salonNamed(c.env, claim.salon).clientPage(claim.holder.client, claim.generation)
    : fail({ code: "link-unknown" });
  if (!claim || !opened.ok) {
    const isRevoked = !opened.ok && opened.fault.code === "link-revoked";
    if (!/\btext\/html\b/.test(c.req.header("accept") ?? "")) {
      return problem({ code: isRevoked ? "link-revoked" : "link-unknown" });
    }
    return c.html(<LinkPage isRevoked={isRevoked} />, isRevoked ? 410 : 404, PAGE_HEADERS);
  }
  const { settings, plans } = opened.value;
  const zone = Zone.named(settings.zone) as Zone;
  const page = `${originOf(c.env, c.req.raw)}/c/${link}`;
  const context = {
    settings,
    zone,
    pageUrl: page,
    uidOf: (booking: string, kind: Parameters<typeof eventUid>[2], n: number | null) =>
      eventUid(claim.salon, booking, kind, n),
  };
  const shown = plans.filter((plan) => isOfInterest(plan, zone));
  return c.html(
    <ClientPage settings={settings} plans={shown} context={context} feedUrl={`${page}/skin-test.ics`} />,
    200,
    PAGE_HEADERS,
  );
});
