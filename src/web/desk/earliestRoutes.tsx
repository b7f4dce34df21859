/** Earliest starts at the desk. */
import { type Context, Hono } from "hono";
import { COUNT_BACK_YEARS_MAX } from "../../bounds.ts";
import type { EarliestStart } from "../../plan/earliest.ts";
import type { Fact, Plan } from "../../plan/types.ts";
import { type Instant, parseDay, parseWall } from "../../time/instant.ts";
import { SCRIPT_PAGE_HEADERS } from "../layout.tsx";
import { deskContext, type DeskService } from "./desk.ts";
import { EarliestPage, type StartShown } from "./earliestPage.tsx";
import { type Refused, refusedFields } from "./readFields.ts";

export const earliestRoutes = new Hono<DeskService>();

/** A local time as the browser's field writes it, or a day; undefined for anything else. */
const readAfter = (c: Context<DeskService>, text: string): Instant | undefined => {
  const { zone } = deskContext(c.var.signed);
  const [wall, day] = [parseWall(text), parseDay(text)];
  if (wall !== undefined) return zone.firstReading(wall);
  return day === undefined ? undefined : zone.startOfDay(day);
};

earliestRoutes.get("/desk/earliest", async (c) => {
  const after = (c.req.query("after") ?? "").trim().slice(0, 40);
  const asked = after === "" ? null : readAfter(c, after);
  const refuse = (text: string): Refused => refusedFields(new URLSearchParams({ after }), [{ at: "after", text }], {});
  let refused =
    asked === undefined
      ? refuse("Not before must be a day and a time, such as 2026-12-09T10:30; choose one, or leave it empty.")
      : null;
  let found = await c.var.salon.earliest(typeof asked === "number" ? { at: asked } : null);
  if (!found.ok) {
    refused = refuse(
      `Not before may lie at most ${COUNT_BACK_YEARS_MAX} years ahead: nobody knows the clocks of later; choose a nearer day.`,
    );
    found = await c.var.salon.earliest(null);
  }
  const { now } = c.var.signed.head;
  const from = refused === null && typeof asked === "number" && asked > now ? asked : null;
  const starts: StartShown[] = [];
  for (const start of found.ok ? found.value : []) starts.push({ start, plan: await planFor(c, start, from ?? now) });
  // The soonest first; a way that leads nowhere last.
  starts.sort((one, other) => (one.start.start ?? Infinity) - (other.start.start ?? Infinity));
  const props = { signed: c.var.signed, starts, from, after, refused };
  return c.html(<EarliestPage {...props} />, refused === null ? 200 : 422, SCRIPT_PAGE_HEADERS);
});

const NOBODYS = "earliest-start";

/** What somebody who takes that start would have to do, by the salon's own rules; nothing is stored. */
const planFor = async (
  c: Context<DeskService>,
  { route, start }: EarliestStart,
  from: Instant,
): Promise<Plan | null> => {
  if (start === null) return null;
  const service = c.var.signed.head.settings.services[0]?.name ?? "";
  const booking = { uid: NOBODYS, start, end: null, summary: "", service, diary: null, client: null, cancelled: false };
  const chosen: Fact = {
    id: "r1",
    client: null,
    booking: NOBODYS,
    kind: "route",
    at: from,
    recorded: from,
    outcome: null,
    route,
    by: null,
    via: "desk",
    product: null,
    shade: null,
    batch: null,
    site: null,
    photo: null,
    reason: null,
    note: null,
    corrects: null,
  };
  const plan = await c.var.salon.countBack(booking, [chosen], from);
  // Its steps are told only where they lead to that start by that way.
  return plan.route === route && plan.standing !== "no-time" ? plan : null;
};
