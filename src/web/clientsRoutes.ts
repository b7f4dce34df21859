/** The salon's calls about its clients: who they are, what is kept of them, and its end. */
import { type Context, Hono } from "hono";
import type { Decider } from "../salon/clientDecisions.ts";
import type { ClientShown } from "../salon/clientList.ts";
import type { Outcome } from "../salon/fault.ts";
import { makeLink } from "../salon/link.ts";
import {
  clientsQuery,
  confirmRequest,
  dataRequest,
  eraseQuery,
  newClient,
  otherRequest,
  splitRequest,
} from "./clientDoors.ts";
import { clientJson, clientShownJson } from "./clientJson.ts";
import { linkRequest } from "./doors.ts";
import { originOf, type Service } from "./env.ts";
import { erasureJson, exportJson, requestJson } from "./keptJson.ts";
import { readOnce } from "./once.ts";
import { problem } from "./problems.ts";
import { check, readJson, readJsonIfAny } from "./readBody.ts";

export const clientsRoutes = new Hono<Service>();

const addressOf = (id: string): string => `/api/salon/clients/${encodeURIComponent(id)}`;

clientsRoutes.get("/salon/clients", async (c) => {
  const read = check(c.req.query(), clientsQuery);
  if (!read.ok) return problem(read.fault);
  const { rows, next } = await c.var.salon.clients(read.value);
  return c.json({ clients: rows.map(clientJson), next });
});

clientsRoutes.post("/salon/clients", async (c) => {
  const read = await readJson(c.req.raw, newClient);
  if (!read.ok) return problem(read.fault);
  const asked = readOnce(c.req.raw, c.var.salonId, read.value);
  if (!asked.ok) return problem(asked.fault);
  const added = await c.var.salon.addClient(read.value, asked.once);
  if (!added.ok) return problem(added.fault);
  const { shown, isNew } = added.value;
  const json = clientShownJson(shown);
  return isNew ? c.json(json, 201, { location: addressOf(json.id) }) : c.json(json, 200);
});

clientsRoutes.get("/salon/clients/:id", async (c) => answer(c, await c.var.salon.client(c.req.param("id"))));

clientsRoutes.post("/salon/clients/:id/confirm", async (c) => {
  const read = await readJsonIfAny(c.req.raw, confirmRequest);
  if (!read.ok) return problem(read.fault);
  return answer(c, await c.var.salon.confirmClient(c.req.param("id"), deciderOf(read.value)));
});

clientsRoutes.post("/salon/clients/:id/join", async (c) => {
  const read = await readJson(c.req.raw, otherRequest);
  if (!read.ok) return problem(read.fault);
  return answer(c, await c.var.salon.joinClients(c.req.param("id"), read.value.with, deciderOf(read.value)));
});

clientsRoutes.post("/salon/clients/:id/apart", async (c) => {
  const read = await readJson(c.req.raw, otherRequest);
  if (!read.ok) return problem(read.fault);
  return answer(c, await c.var.salon.partClients(c.req.param("id"), read.value.with, deciderOf(read.value)));
});

clientsRoutes.post("/salon/clients/:id/split", async (c) => {
  const read = await readJson(c.req.raw, splitRequest);
  if (!read.ok) return problem(read.fault);
  const asked = readOnce(c.req.raw, c.var.salonId, read.value);
  if (!asked.ok) return problem(asked.fault);
  const { bookings } = read.value;
  const split = await c.var.salon.splitClient(c.req.param("id"), bookings, deciderOf(read.value), asked.once);
  if (!split.ok) return problem(split.fault);
  const json = clientShownJson(split.value);
  return c.json(json, 201, { location: addressOf(json.id) });
});

clientsRoutes.post("/salon/clients/:id/requests", async (c) => {
  const read = await readJson(c.req.raw, dataRequest);
  if (!read.ok) return problem(read.fault);
  const asked = readOnce(c.req.raw, c.var.salonId, read.value);
  if (!asked.ok) return problem(asked.fault);
  const { what, received = null } = read.value;
  const told = { what, received };
  const kept = await c.var.salon.addRequest(c.req.param("id"), told, deciderOf(read.value), asked.once);
  if (!kept.ok) return problem(kept.fault);
  return c.json(requestJson(kept.value), 201, { location: addressOf(c.req.param("id")) });
});

clientsRoutes.post("/salon/clients/:id/requests/:request/answered", async (c) => {
  const read = await readJsonIfAny(c.req.raw, confirmRequest);
  if (!read.ok) return problem(read.fault);
  const { id, request } = c.req.param();
  return answer(c, await c.var.salon.answerRequest(id, request, deciderOf(read.value)));
});

clientsRoutes.get("/salon/clients/:id/export", async (c) => {
  const exported = await c.var.salon.exportClient(c.req.param("id"));
  if (!exported.ok) return problem(exported.fault);
  const name = `client-${exported.value.client.client.id}.json`;
  return c.json(exportJson(exported.value), 200, { "content-disposition": `attachment; filename="${name}"` });
});

clientsRoutes.delete("/salon/clients/:id", async (c) => {
  const read = check(c.req.query(), eraseQuery);
  if (!read.ok) return problem(read.fault);
  const said = await readJsonIfAny(c.req.raw, confirmRequest);
  if (!said.ok) return problem(said.fault);
  const isWhole = read.value.evidence === "erase";
  const erased = await c.var.salon.eraseClient(c.req.param("id"), isWhole, deciderOf(said.value));
  if (!erased.ok) return problem(erased.fault);
  return c.json(erasureJson(erased.value), erased.value.ahead.length > 0 ? 202 : 200);
});

clientsRoutes.post("/salon/clients/:id/link", async (c) => {
  const read = await readJsonIfAny(c.req.raw, linkRequest);
  if (!read.ok) return problem(read.fault);
  const link = await c.var.salon.clientLink(c.req.param("id"), read.value.renew, true);
  if (!link.ok) return problem(link.fault);
  const { number, generation } = link.value;
  const text = makeLink({ salon: c.var.salonId, holder: { client: number }, generation }, c.env.LINK_SECRET);
  const page = `${originOf(c.env, c.req.raw)}/c/${text}`;
  return c.json({ feed: `${page}/skin-test.ics`, page });
});

const deciderOf = ({ by, via, reason }: Decider): Decider => ({ by, via, reason });

const answer = (c: Context<Service>, shown: Outcome<ClientShown>): Response =>
  shown.ok ? c.json(clientShownJson(shown.value)) : problem(shown.fault);
