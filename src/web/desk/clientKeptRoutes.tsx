/** What leaves the desk of a client, and her end: the card to hand over, all that is kept of her as a file, her erasure. */
import { type Context, Hono } from "hono";
import * as z from "zod";
import { SCRIPT_PAGE_HEADERS } from "../layout.tsx";
import { exportJson } from "../keptJson.ts";
import { ClientCardPage } from "./clientCardPage.tsx";
import { ClientErasePage } from "./clientErasePage.tsx";
import { sayFault } from "./sayFault.ts";
import { clientLinks } from "./clientLinks.ts";
import { readDecider } from "./decide.ts";
import { type DeskService, goBack } from "./desk.ts";
import type { Refused } from "./readFields.ts";

export const clientKeptRoutes = new Hono<DeskService>();

type Asked = Context<DeskService, "/desk/clients/:id">;

clientKeptRoutes.get("/desk/clients/:id/card", async (c) => {
  const id = c.req.param("id");
  const [found, links] = [await c.var.salon.clientAtDesk(id), await clientLinks(c, id)];
  if (!found.ok) return sayFault(c, found.fault, "/desk/clients");
  if (!links.ok) return sayFault(c, links.fault, "/desk/clients");
  const { plans, shown } = found.value;
  const props = { signed: c.var.signed, id: shown.client.id, plans, links: links.value };
  return c.html(<ClientCardPage {...props} />, 200, SCRIPT_PAGE_HEADERS);
});

clientKeptRoutes.get("/desk/clients/:id/export", async (c) => {
  const exported = await c.var.salon.exportClient(c.req.param("id"));
  if (!exported.ok) return sayFault(c, exported.fault, "/desk/clients");
  const { id } = exported.value.client.client;
  return c.body(`${JSON.stringify(exportJson(exported.value), null, 2)}\n`, 200, {
    "content-type": "application/json; charset=utf-8",
    "content-disposition": `attachment; filename="client-${id}.json"`,
    "cache-control": "private, no-store",
    "x-content-type-options": "nosniff",
  });
});

clientKeptRoutes.get("/desk/clients/:id/erase", (c) => erasePage(c, null));

const erasePage = async (c: Asked, refused: Refused | null): Promise<Response> => {
  const kept = await c.var.salon.exportClient(c.req.param("id"));
  if (!kept.ok) return sayFault(c, kept.fault, "/desk/clients");
  const props = { signed: c.var.signed, kept: kept.value, refused };
  return c.html(<ClientErasePage {...props} />, refused === null ? 200 : 422, SCRIPT_PAGE_HEADERS);
};

/** Whatever else is sent, nothing more is erased than was chosen. */
const evidenceChoice = z.enum(["keep", "erase"]).catch("keep");

clientKeptRoutes.post("/desk/clients/:id/erase", async (c) => {
  const decider = readDecider(c);
  if (!decider.ok) return erasePage(c, decider.refused);
  const id = c.req.param("id");
  const isWhole = evidenceChoice.parse(c.var.pressed.fields.get("evidence")) === "erase";
  const erased = await c.var.salon.eraseClient(id, isWhole, decider.value);
  if (!erased.ok) return sayFault(c, erased.fault, "/desk/clients");
  const { client, ahead, kept } = erased.value;
  if (ahead.length > 0) return goBack(c, "erase-waits", `/desk/clients/${client}`);
  return kept.length > 0
    ? goBack(c, "erased-kept", `/desk/clients/${client}`)
    : goBack(c, "erased-all", "/desk/clients");
});
