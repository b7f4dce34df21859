/** The salon's and the operator's calls under /api. Each turns a request into one question to the salon's object. */
import { Hono } from "hono";
import { IMPORT_MAX_BYTES } from "../bounds.ts";
import { hashKey, makeKey, makeLink, newSalonId } from "../salon/link.ts";
import { settingsSchema } from "../settings.ts";
import { operatorOnly, salonOnly } from "./admit.ts";
import {
  clientRecordLocation,
  dryRunQuery,
  earliestQuery,
  entriesQuery,
  entryAnswer,
  entryCursor,
  factDraftOf,
  noQuery,
  planCursor,
  plansQuery,
  recordsQuery,
  salonRecord,
  screeningsQuery,
  settingsQuery,
} from "./doors.ts";
import { type Env, originOf, salonNamed, type Service } from "./env.ts";
import { changeJson, earliestJson, entryJson, factJson, planJson, reportJson, screeningJson } from "./planJson.ts";
import { problem } from "./problems.ts";
import { readImport } from "./importDoor.ts";
import { readOnce } from "./once.ts";
import { check, readJson, readText } from "./readBody.ts";
import { recordsCsv } from "./recordsCsv.ts";

export const salonRoutes = new Hono<Service>();

const secondsNow = (): number => Math.floor(Date.now() / 1000);
const settingsTag = (version: number): string => `"settings-${version}"`;

salonRoutes.post("/salons", operatorOnly, async (c) => {
  const read = await readJson(c.req.raw, settingsSchema);
  if (!read.ok) return problem(read.fault);
  const asked = readOnce(c.req.raw, "operator", read.value);
  if (!asked.ok) return problem(asked.fault);
  // The key is not stored, so that the same request makes the same one again.
  const again = asked.once && { once: asked.once.key, secret: c.env.LINK_SECRET };
  const id = newSalonId(again);
  const key = makeKey(id, c.env.LINK_SECRET, again);
  const origin = originOf(c.env, c.req.raw);
  const made = await salonNamed(c.env, id).create(id, origin, read.value, hashKey(key), asked.once?.print ?? null);
  if (!made.ok) return problem(made.fault);
  const feed = salonFeed(id, made.value.feedGeneration, c.env, c.req.raw);
  return c.json({ salon: id, key, feed }, 201, { location: "/api/salon" });
});

/** The address of a salon's feed. */
const salonFeed = (salon: string, generation: number, env: Env, request: Request): string => {
  const link = makeLink({ salon, holder: "salon-feed", generation }, env.LINK_SECRET);
  return `${originOf(env, request)}/s/${link}/deadlines.ics`;
};

// Hono takes `/salon/*` to be `/salon` too.
salonRoutes.use("/salon/*", salonOnly);

/** Calls that change something and are chosen about in their address; in any other a choice is a mistake that would be carried out. */
const CHOSEN = /^(PUT \/api\/salon|POST \/api\/salon\/records\/import|DELETE \/api\/salon\/clients\/[^/]+)$/;

salonRoutes.use("/salon/*", async (c, next) => {
  const isRead = c.req.method === "GET" || c.req.method === "HEAD";
  if (isRead || CHOSEN.test(`${c.req.method} ${c.req.path}`)) return next();
  const read = check(c.req.query(), noQuery);
  return read.ok ? next() : problem(read.fault);
});

salonRoutes.get("/salon", async (c) => {
  const read = check(c.req.query(), settingsQuery);
  if (!read.ok) return problem(read.fault);
  const shown = await c.var.salon.settings(read.value.version);
  if (!shown.ok) return problem(shown.fault);
  const { version, settings, feedGeneration } = shown.value;
  const feed = salonFeed(c.var.salonId, feedGeneration, c.env, c.req.raw);
  return c.json(settings, 200, {
    etag: settingsTag(version),
    link: `<${feed}>; rel="alternate"; type="text/calendar"`,
  });
});

salonRoutes.post("/salon/key", async (c) => {
  const key = makeKey(c.var.salonId, c.env.LINK_SECRET);
  await c.var.salon.renewKey(hashKey(key));
  return c.json({ key }, 200, { "cache-control": "no-store" });
});

salonRoutes.post("/salon/feed", async (c) => {
  const { feedGeneration } = await c.var.salon.renewFeed();
  return c.json({ feed: salonFeed(c.var.salonId, feedGeneration, c.env, c.req.raw) });
});

salonRoutes.put("/salon", async (c) => {
  const read = await readJson(c.req.raw, settingsSchema);
  if (!read.ok) return problem(read.fault);
  const isDryRun = check(c.req.query(), dryRunQuery);
  if (!isDryRun.ok) return problem(isDryRun.fault);
  const versions = versionsOf(c.req.header("if-match"));
  if (isDryRun.value) {
    const preview = await c.var.salon.previewSettings(read.value, versions);
    if (!preview.ok) return problem(preview.fault);
    const { changes, erased } = preview.value;
    return c.json({ changes: changes.map(changeJson), erased });
  }
  const put = await c.var.salon.putSettings(read.value, versions);
  return put.ok ? c.json(put.value.settings, 200, { etag: settingsTag(put.value.version) }) : problem(put.fault);
});

/**
 * The versions that If-Match names, strongly compared (RFC 9110 §13.1.1); null where it is absent or names any. A tag of no
 * version matches none.
 */
const versionsOf = (header: string | undefined): readonly number[] | null => {
  if (header === undefined || header.trim() === "*") return null;
  return [...header.matchAll(/(?:^|[\s,])"settings-(\d{1,9})"/g)].map(([, version]) => Number(version));
};

salonRoutes.delete("/salon", async (c) => {
  const erased = await c.var.salon.eraseSalon(versionsOf(c.req.header("if-match")));
  return erased.ok ? c.body(null, 204) : problem(erased.fault);
});

/** Content types under which a diary may be pushed; a wrong one is said before the body is looked at. */
const CALENDAR_TYPE =
  /^(text\/calendar|text\/plain|application\/ics|application\/octet-stream|application\/x-www-form-urlencoded)\s*(;|$)/i;

salonRoutes.put("/salon/diaries/:name", async (c) => {
  const name = c.req.param("name");
  const type = c.req.header("content-type");
  const body = c.req.raw.body ?? new Response("").body;
  if (!body) return problem({ code: "not-found" });
  if (type !== undefined && !CALENDAR_TYPE.test(type)) {
    await body.pipeTo(new WritableStream());
    return problem({ code: "wrong-type", type, wanted: "text/calendar" });
  }
  const pushed = await c.var.salon.pushDiary(name, body);
  if (!pushed.ok) return problem(pushed.fault);
  const report = pushed.value;
  if (report.reason?.code === "diary-too-large") return problem({ code: "diary-too-large" });
  return c.json(reportJson(report), report.status === "held" ? 202 : report.status === "refused" ? 422 : 200);
});

salonRoutes.delete("/salon/diaries/:name", async (c) => {
  const dropped = await c.var.salon.dropDiary(c.req.param("name"));
  return dropped.ok ? c.body(null, 204) : problem(dropped.fault);
});

salonRoutes.post("/salon/diaries/:name/confirm", async (c) => {
  const confirmed = await c.var.salon.confirmDiary(c.req.param("name"), null);
  return confirmed.ok ? c.json(reportJson(confirmed.value)) : problem(confirmed.fault);
});

salonRoutes.post("/salon/refresh", async (c) => c.json({ diaries: (await c.var.salon.refresh()).map(reportJson) }));

salonRoutes.get("/salon/diaries", async (c) => c.json({ diaries: (await c.var.salon.reports()).map(reportJson) }));

salonRoutes.get("/salon/entries", async (c) => {
  const read = check(c.req.query(), entriesQuery);
  if (!read.ok) return problem(read.fault);
  const listed = await c.var.salon.entries(read.value);
  if (!listed.ok) return problem(listed.fault);
  const { entries, next } = listed.value;
  return c.json({ entries: entries.map(entryJson), next: next && entryCursor(next) });
});

salonRoutes.put("/salon/entries/:id", async (c) => {
  const read = await readJson(c.req.raw, entryAnswer);
  if (!read.ok) return problem(read.fault);
  const answered = await c.var.salon.answerEntry(c.req.param("id"), read.value);
  return answered.ok ? c.json(entryJson(answered.value)) : problem(answered.fault);
});

salonRoutes.delete("/salon/entries/:id", async (c) => {
  const forgotten = await c.var.salon.takeBackAnswer(c.req.param("id"));
  return forgotten.ok ? c.body(null, 204) : problem(forgotten.fault);
});

salonRoutes.get("/salon/plans", async (c) => {
  const read = check(c.req.query(), plansQuery);
  if (!read.ok) return problem(read.fault);
  const { plans, next } = await c.var.salon.plans(read.value);
  return c.json({ plans: plans.map(planJson), next: next && planCursor(next) });
});

salonRoutes.get("/salon/earliest", async (c) => {
  const read = check(c.req.query(), earliestQuery);
  if (!read.ok) return problem(read.fault);
  const earliest = await c.var.salon.earliest(read.value.after);
  return earliest.ok ? c.json({ routes: earliest.value.map(earliestJson) }) : problem(earliest.fault);
});

salonRoutes.post("/salon/records", async (c) => {
  const read = await readJson(c.req.raw, salonRecord);
  if (!read.ok) return problem(read.fault);
  const { client, ...record } = read.value;
  const asked = readOnce(c.req.raw, c.var.salonId, read.value);
  if (!asked.ok) return problem(asked.fault);
  const added = await c.var.salon.addRecord(factDraftOf(record, client, secondsNow()), asked.once);
  if (!added.ok) return problem(added.fault);
  return c.json(factJson(added.value), 201, { location: clientRecordLocation(added.value.client ?? "") });
});

/** Types under which a table may be sent; a form's is what curl says where nothing is said. */
const CSV_TYPE =
  /^(text\/csv|text\/plain|application\/csv|application\/octet-stream|application\/x-www-form-urlencoded)\s*(;|$)/i;

salonRoutes.post("/salon/records/import", async (c) => {
  const isDryRun = check(c.req.query(), dryRunQuery);
  if (!isDryRun.ok) return problem(isDryRun.fault);
  const read = await readText(c.req.raw, CSV_TYPE, "text/csv", IMPORT_MAX_BYTES);
  if (!read.ok) return problem(read.fault);
  const asked = readOnce(c.req.raw, c.var.salonId, read.value);
  if (!asked.ok) return problem(asked.fault);
  const table = readImport(read.value);
  if (!table.ok) return problem(table.fault);
  const imported = await c.var.salon.importRecords(table.value.lines, isDryRun.value, asked.once);
  if (!imported.ok) return problem(imported.fault);
  const refused = [...table.value.refused, ...imported.value.refused];
  const inOrder = refused.toSorted((one, other) => one.line - other.line);
  return c.json({ ...imported.value, refused: inOrder, dryRun: isDryRun.value });
});

salonRoutes.get("/salon/records", async (c) => {
  const read = check(c.req.query(), recordsQuery);
  if (!read.ok) return problem(read.fault);
  const { format, ...choice } = read.value;
  if (format === "csv") return recordsCsv(c.var.salon, choice, c.req.query("limit") !== undefined, new URL(c.req.url));
  const { rows, next } = await c.var.salon.recordLog(choice);
  return c.json({ records: rows.map(({ record }) => factJson(record)), next });
});

salonRoutes.get("/salon/screenings", async (c) => {
  const read = check(c.req.query(), screeningsQuery);
  if (!read.ok) return problem(read.fault);
  const { screenings, next } = await c.var.salon.screenings(read.value);
  return c.json({ screenings: screenings.map(screeningJson), next });
});
