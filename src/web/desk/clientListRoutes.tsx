/** The desk's list of clients: looking somebody up, and one more by hand. */
import { type Context, Hono } from "hono";
import { getCookie, setCookie } from "hono/cookie";
import { SOUGHT_MINUTES, TEXT_MAX } from "../../bounds.ts";
import { CLIENT_STATES } from "../../salon/clientList.ts";
import { MINUTE } from "../../time/instant.ts";
import { newClient } from "../clientDoors.ts";
import { beginningOf } from "../fields.ts";
import { SCRIPT_PAGE_HEADERS } from "../layout.tsx";
import { sayFault } from "./sayFault.ts";
import { CLIENT_LABELS, ClientListPage, type Shown } from "./clientListPage.tsx";
import { ofDesk, SOUGHT_COOKIE, SOUGHT_PATH } from "./deskCookie.ts";
import { deciderHere } from "./decide.ts";
import { type DeskService, goBack, onceOf } from "./desk.ts";
import { readFields, type Refused } from "./readFields.ts";

export const clientListRoutes = new Hono<DeskService>();

/** Clients of one page. */
const ROWS = 50;

clientListRoutes.get("/desk/clients", (c) => listPage(c, null));

clientListRoutes.post("/desk/clients/find", (c) => {
  const sought = beginningOf((c.var.pressed.fields.get("q") ?? "").trim(), TEXT_MAX);
  setCookie(c, SOUGHT_COOKIE, sought, { ...ofDesk(c), path: SOUGHT_PATH, maxAge: SOUGHT_MINUTES * MINUTE });
  return c.redirect(sought === "" ? "/desk/clients" : "/desk/clients?found=1", 303);
});

clientListRoutes.post("/desk/clients", async (c) => {
  const read = readFields(c.var.pressed, newClient, CLIENT_LABELS);
  if (!read.ok) return listPage(c, read.refused);
  const added = await c.var.salon.addClient(read.value, onceOf(c), deciderHere(c));
  if (!added.ok) return sayFault(c, added.fault, "/desk/clients");
  const { shown, isNew } = added.value;
  return goBack(c, isNew ? "client-added" : "client-known", `/desk/clients/${shown.client.id}`);
});

const listPage = async (c: Context<DeskService>, refused: Refused | null): Promise<Response> => {
  const { found, state, after } = c.req.query();
  const asked = found === undefined ? "" : (getCookie(c, SOUGHT_COOKIE) ?? "");
  const sought = asked === "" ? null : asked;
  const known = CLIENT_STATES.find((each) => each === state) ?? null;
  const from = after !== undefined && /^c\d{1,12}$/.test(after) ? after : null;
  const choice = { q: sought, state: sought === null ? known : null, after: from, limit: ROWS };
  const page = await c.var.salon.clients(choice);
  const shown: Shown = known ?? "all";
  const props = { signed: c.var.signed, page, shown, sought, refused };
  return c.html(<ClientListPage {...props} />, refused === null ? 200 : 422, SCRIPT_PAGE_HEADERS);
};
