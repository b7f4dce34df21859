/** The coming weeks. Rows are made once and kept in memory until the salon says that something has changed. */
import { Hono } from "hono";
import { html } from "hono/html";
import * as z from "zod";
import { WEEKS_MAX, WEEKS_SHOWN } from "../../bounds.ts";
import { parseDay } from "../../time/instant.ts";
import { Zone } from "../../time/zone.ts";
import { SCRIPT_PAGE_HEADERS } from "../layout.tsx";
import { check } from "../readBody.ts";
import type { DeskService } from "./desk.ts";
import { deskFault } from "./deskFault.tsx";
import { RowShelf } from "./RowShelf.ts";
import { makeRows } from "./weekRows.ts";
import { ROWS_MARK, WeeksPage } from "./weeksPage.tsx";

export const weeksRoutes = new Hono<DeskService>();

const day = z.string().transform((value, context) => {
  const found = parseDay(value);
  if (found !== undefined) return found;
  context.addIssue({ code: "custom", message: "must be a date; write one such as 2026-12-09" });
  return z.NEVER;
});

const weeksQuery = z.strictObject({
  from: day.optional(),
  weeks: z.coerce.number().int().min(1).max(WEEKS_MAX).default(WEEKS_SHOWN),
});

/** Hundreds of rows are hundreds of thousands of octets: they are not written as text again for each answer. */
const withRows = (page: string, rows: Uint8Array): Uint8Array<ArrayBuffer> => {
  const [before = "", after] = page.split(ROWS_MARK);
  const parts = [
    new TextEncoder().encode(before),
    ...(after === undefined ? [] : [rows, new TextEncoder().encode(after)]),
  ];
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
};

const shelf = new RowShelf();

weeksRoutes.get("/desk/weeks", async (c) => {
  const { signed, salon, salonId } = c.var;
  const { said: _said, ...query } = c.req.query();
  const read = check(query, weeksQuery);
  if (!read.ok) return deskFault(c, read.fault);
  const { now, settings } = signed.head;
  const from = read.value.from ?? (Zone.named(settings.zone) as Zone).dayAt(now);
  const days = { from, to: from + 7 * read.value.weeks };
  const name = `${salonId} ${days.from} ${days.to}`;
  const kept = shelf.find(name, now);
  const answer = await salon.deskWeeks(days, kept?.tag ?? null);
  const made = answer.weeks === null ? kept?.made : makeRows(signed, answer.weeks);
  if (!made) throw new Error("a salon says that nothing has changed to somebody who has nothing");
  if (answer.weeks !== null) shelf.put(name, { tag: answer.tag, made });
  const page = String(await html`${<WeeksPage signed={signed} made={made} count={read.value.weeks} />}`);
  const headers = { ...SCRIPT_PAGE_HEADERS, "content-type": "text/html; charset=UTF-8" };
  return c.body(withRows(page, made.rows), 200, headers);
});
