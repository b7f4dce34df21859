/** The evidence of one appointment, as a page to print or as JSON. */
import { Hono } from "hono";
import { evidenceQuery } from "./doors.ts";
import type { Service } from "./env.ts";
import { evidenceJson } from "./evidenceJson.ts";
import { EvidencePage } from "./evidencePage.tsx";
import { KEPT_PAGE_HEADERS } from "./layout.tsx";
import { prefersHtml } from "./prefersHtml.ts";
import { problem } from "./problems.ts";
import { check } from "./readBody.ts";

export const evidenceRoute = new Hono<Service>();

evidenceRoute.get("/salon/evidence", async (c) => {
  const read = check(c.req.query(), evidenceQuery);
  if (!read.ok) return problem(read.fault);
  const { booking, format } = read.value;
  const found = await c.var.salon.evidence(booking);
  if (!found.ok) return problem(found.fault);
  const isPage = format === undefined ? prefersHtml(c.req.header("accept")) : format === "html";
  if (!isPage) return c.json(evidenceJson(found.value), 200, { vary: "Accept" });
  return c.html(<EvidencePage evidence={found.value} />, 200, { ...KEPT_PAGE_HEADERS, vary: "Accept" });
});
