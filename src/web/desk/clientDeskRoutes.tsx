/** One client at the desk: her page, and what is decided there. */
import { type Context, Hono } from "hono";
import * as z from "zod";
import type { Decider } from "../../salon/clientDecisions.ts";
import type { ClientShown } from "../../salon/clientList.ts";
import type { Outcome } from "../../salon/fault.ts";
import { dataRequest } from "../clientDoors.ts";
import { SCRIPT_PAGE_HEADERS } from "../layout.tsx";
import { sayFault } from "./sayFault.ts";
import { ClientDeskPage } from "./clientDeskPage.tsx";
import { clientLinks } from "./clientLinks.ts";
import { deciderHere, readDecider } from "./decide.ts";
import { type DeskService, goBack, onceOf, refOf } from "./desk.ts";
import { readFields, type Refused, refusedFields } from "./readFields.ts";

export const clientDeskRoutes = new Hono<DeskService>();

type Asked = Context<DeskService, "/desk/clients/:id">;

const pageOf = (id: string): string => `/desk/clients/${encodeURIComponent(id)}`;

clientDeskRoutes.get("/desk/clients/:id", (c) => clientPage(c, null));

/** Her page; where a form of it was refused, with that form as it was sent. */
const clientPage = async (c: Asked, refused: Refused | null): Promise<Response> => {
  const id = c.req.param("id");
  const found = await c.var.salon.clientAtDesk(id);
  if (!found.ok) return sayFault(c, found.fault, "/desk/clients");
  const { client } = found.value.shown;
  const links = client.erased === null ? await clientLinks(c, client.id) : null;
  // What the diaries say of her is looked up only where it is shown: their whole text is gone through for it.
  const isLeaving = client.erased !== null || client.erasing !== null;
  const kept = isLeaving ? await c.var.salon.exportClient(client.id) : null;
  const props = {
    signed: c.var.signed,
    found: found.value,
    links: links?.ok ? links.value : null,
    kept: kept?.ok ? kept.value : null,
    refused,
  };
  return c.html(<ClientDeskPage {...props} />, refused === null ? 200 : 422, SCRIPT_PAGE_HEADERS);
};

/** Carries a decision out, once its reason is read, and goes on to the client whom it leaves. */
const decide = async (
  c: Asked,
  said: string,
  decision: (id: string, decider: Decider) => Promise<Outcome<ClientShown>>,
): Promise<Response> => {
  const decider = readDecider(c);
  if (!decider.ok) return clientPage(c, decider.refused);
  const id = c.req.param("id");
  const shown = await decision(id, decider.value);
  return shown.ok ? goBack(c, said, pageOf(shown.value.client.id)) : sayFault(c, shown.fault, pageOf(id));
};

/** The other's number, however it was copied. */
const otherOf = (c: Asked): string => (c.var.pressed.fields.get("with") ?? "").trim().toLowerCase();

clientDeskRoutes.post("/desk/clients/:id/confirm", (c) =>
  decide(c, "client-confirmed", async (id, decider) => c.var.salon.confirmClient(id, decider)),
);

clientDeskRoutes.post("/desk/clients/:id/who", (c) =>
  c.var.pressed.fields.get("deed") === "join"
    ? decide(c, "client-joined", async (id, decider) => c.var.salon.joinClients(id, otherOf(c), decider))
    : decide(c, "client-apart", async (id, decider) => c.var.salon.partClients(id, otherOf(c), decider)),
);

clientDeskRoutes.post("/desk/clients/:id/join", async (c) => {
  const other = otherOf(c);
  const isNumber = /^c\d{1,12}$/.test(other);
  const known = isNumber ? await c.var.salon.client(other) : null;
  if (known === null || !known.ok || known.value.client.id === c.req.param("id")) {
    const text = isNumber
      ? "The other's number is no other client of this salon; write it as it stands at the top of her page, such as c12."
      : "The other's number must be a c and digits; write it as it stands at the top of her page, such as c12.";
    return clientPage(c, refusedFields(c.var.pressed.fields, [{ at: "with", text }], {}));
  }
  return decide(c, "client-joined", async (id, decider) => c.var.salon.joinClients(id, other, decider));
});

clientDeskRoutes.post("/desk/clients/:id/split", async (c) => {
  const { fields } = c.var.pressed;
  const ticked = new Set(fields.getAll("booking"));
  if (ticked.size === 0) {
    const text = "No appointment is ticked: tick those that are another person's.";
    return clientPage(c, refusedFields(fields, [{ at: "booking", text }], {}));
  }
  const shown = await c.var.salon.client(c.req.param("id"));
  if (!shown.ok) return sayFault(c, shown.fault, "/desk/clients");
  const uids = shown.value.bookings.map(({ uid }) => uid).filter((uid) => ticked.has(refOf(c.var.signed, uid)));
  // One that is hers no more is refused with all the others; a split sent again finds them gone and answers as the first time.
  const chosen = uids.length === ticked.size ? uids : [...ticked];
  return decide(c, "client-split", async (id, decider) => c.var.salon.splitClient(id, chosen, decider, onceOf(c)));
});

const requestForm = dataRequest.pick({ what: true, received: true, reason: true });
const REQUEST_LABELS = { what: "What she asks for", received: "Received on", reason: "What to remember of it" };

clientDeskRoutes.post("/desk/clients/:id/requests", async (c) => {
  const read = readFields(c.var.pressed, requestForm, REQUEST_LABELS);
  if (!read.ok) return clientPage(c, read.refused);
  const { what, received = null, reason } = read.value;
  const id = c.req.param("id");
  const kept = await c.var.salon.addRequest(id, { what, received }, { ...deciderHere(c), reason }, onceOf(c));
  if (kept.ok) return goBack(c, "request-kept", pageOf(id));
  if (kept.fault.code !== "received-out-of-range") return sayFault(c, kept.fault, pageOf(id));
  const text = "Received on must be today or a day of the last ten years: a request is kept once it has come.";
  return clientPage(c, refusedFields(c.var.pressed.fields, [{ at: "received", text }], {}));
});

clientDeskRoutes.post("/desk/clients/:id/answered", (c) =>
  decide(c, "request-answered", async (id, decider) =>
    c.var.salon.answerRequest(id, c.var.pressed.fields.get("request") ?? "", decider),
  ),
);

const linkDeed = z.enum(["given", "renew"]).catch("given");

clientDeskRoutes.post("/desk/clients/:id/link", async (c) => {
  const deed = linkDeed.parse(c.var.pressed.fields.get("what"));
  const id = c.req.param("id");
  const links = await clientLinks(c, id, deed);
  if (!links.ok) return sayFault(c, links.fault, pageOf(id));
  return goBack(c, deed === "renew" ? "link-renewed" : "link-given", pageOf(id));
});
