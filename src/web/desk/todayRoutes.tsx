/** The desk's first page, and what is pressed on it and on a booking's: records, what was read, who was told. */
import { Hono } from "hono";
import { getCookie, setCookie } from "hono/cookie";
import { LOOK_APART_MINUTES, NEWS_FIRST_DAYS, NEWS_LONGEST_DAYS, RECORD_AHEAD_MINUTES } from "../../bounds.ts";
import type { DeskToday } from "../../salon/deskToday.ts";
import { DAY_SECONDS, type Instant, MINUTE } from "../../time/instant.ts";
import { SCRIPT_PAGE_HEADERS } from "../layout.tsx";
import { questionsAddress } from "../questionsAddress.ts";
import { check } from "../readBody.ts";
import { REASON_WORDS } from "./callList.tsx";
import { backOf, type DeskService, deskContext, goBack, onceOf, pageOf, type Signed } from "./desk.ts";
import { deskFault } from "./deskFault.tsx";
import { ofDesk } from "./deskCookie.ts";
import { draftOfPress, recordPressed, toldPressed } from "./pressedDoors.ts";
import { messageFor } from "./messages.ts";
import { timesOf } from "./times.ts";
import { TodayPage } from "./todayPage.tsx";

export const todayRoutes = new Hono<DeskService>();

/** Of each salon its own: what is no news in one may be in another. */
const lookedCookie = ({ salonId }: Signed): string => `looked-${salonId.slice(0, 8)}`;

/**
 * When somebody last looked from this screen: visits that follow one another closely are one look. The cookie holds when news
 * begins, and when the page was last opened.
 */
const lookOf = (cookie: string | undefined, now: Instant): { readonly since: Instant; readonly cookie: string } => {
  const [since, last] = (/^(\d{1,11})\.(\d{1,11})$/.exec(cookie ?? "") ?? []).slice(1).map(Number);
  const isKnown = since !== undefined && last !== undefined && last <= now && since <= last;
  const begins = !isKnown
    ? now - NEWS_FIRST_DAYS * DAY_SECONDS
    : now - last > LOOK_APART_MINUTES * MINUTE
      ? last
      : since;
  return { since: Math.max(begins, now - NEWS_LONGEST_DAYS * DAY_SECONDS), cookie: `${begins}.${now}` };
};

todayRoutes.get("/desk", async (c) => {
  const { signed, salon } = c.var;
  const look = lookOf(getCookie(c, lookedCookie(signed)), signed.head.now);
  const today: DeskToday = await salon.deskToday(look.since);
  const context = deskContext(signed);
  const plans = new Map(today.plans.map((plan) => [plan.booking.uid, plan]));
  const people = new Map(today.clients.map((client) => [client.id, client]));
  const messages = new Map(
    today.calls.flatMap(({ booking }) => {
      const plan = plans.get(booking);
      const client = people.get(plan?.booking.client?.id ?? "");
      return plan && client ? [[booking, messageFor(plan, context, pageOf(c, client))] as const] : [];
    }),
  );
  const questions = new Map(
    today.due.flatMap(({ kind, booking }) => {
      const plan = plans.get(booking);
      const client = people.get(plan?.booking.client?.id ?? "");
      if (kind !== "questions" || !plan || !client) return [];
      return [[booking, questionsAddress(plan, { ...context, pageUrl: pageOf(c, client) })] as const];
    }),
  );
  setCookie(c, lookedCookie(signed), look.cookie, { ...ofDesk(c), maxAge: NEWS_LONGEST_DAYS * DAY_SECONDS });
  const page = <TodayPage signed={signed} today={today} since={look.since} messages={messages} questions={questions} />;
  return c.html(page, 200, SCRIPT_PAGE_HEADERS);
});

todayRoutes.post("/desk/records", async (c) => {
  const { signed, salon, pressed } = c.var;
  const read = check(filled(pressed.fields), recordPressed);
  if (!read.ok) return deskFault(c, read.fault);
  const { booking, when } = read.value;
  const { zone, near } = timesOf(signed);
  if (when !== undefined && zone.firstReading(when) > signed.head.now + RECORD_AHEAD_MINUTES * MINUTE) {
    return deskFault(c, {
      status: 422,
      heading: "That time is still ahead",
      text: `You wrote ${near(zone.firstReading(when))}, and it is ${near(signed.head.now)}. Nothing was saved. Go back and write when it happened, at the latest now; or leave the time empty, which means now.`,
      back: backOf(pressed.fields),
      backWords: "Back",
    });
  }
  const draft = draftOfPress(read.value, signed.who, signed.head.now);
  const added = await salon.addDeskRecord(booking, draft, when ?? null, onceOf(c));
  return added.ok ? goBack(c, "recorded") : deskFault(c, added.fault);
});

todayRoutes.post("/desk/seen", async (c) => {
  const { signed, salon, pressed } = c.var;
  const decider = { by: signed.who, via: "desk" as const, reason: null };
  const seen = await salon.acknowledge(pressed.fields.get("record") ?? "", decider);
  return seen.ok ? goBack(c, "seen") : deskFault(c, seen.fault);
});

todayRoutes.post("/desk/told", async (c) => {
  const { signed, salon, pressed } = c.var;
  const read = check(filled(pressed.fields), toldPressed);
  if (!read.ok) return deskFault(c, read.fault);
  const { booking, how, words, reason } = read.value;
  const draft = draftOfPress(
    {
      choice: { kind: "note", outcome: null, route: null, ground: null },
      note: `${how === "sent" ? "Sent to her" : "Told her by telephone"}: ${reason.map((code) => REASON_WORDS[code]).join("; ")}`,
      reason: reason.join(" "),
    },
    signed.who,
    signed.head.now,
  );
  const added = await salon.addDeskRecord(booking, { ...draft, words }, null, onceOf(c));
  if (!added.ok) return deskFault(c, added.fault);
  // What is sent holds her link.
  if (how === "sent" && added.value.client !== null) await salon.giveLink(added.value.client);
  return goBack(c, "told");
});

todayRoutes.post("/desk/given", async (c) => {
  const given = await c.var.salon.giveLink(c.var.pressed.fields.get("client") ?? "");
  return given.ok ? goBack(c, "given") : deskFault(c, given.fault);
});

/** Fields that were filled in, besides those of the form itself; of one that stands twice, the last. */
const filled = (fields: URLSearchParams): Readonly<Record<string, string>> =>
  Object.fromEntries(
    [...fields].filter(([name, value]) => value.trim() !== "" && !["token", "once", "back"].includes(name)),
  );
