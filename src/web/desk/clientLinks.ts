/** The addresses that a client's link opens, as the desk shows them. */
import type { Context } from "hono";
import { type Outcome, succeed } from "../../salon/fault.ts";
import type { ClientLinks } from "./clientLinkCard.tsx";
import { type DeskService, pageOf } from "./desk.ts";

/** @param deed `renew` makes a new link and revokes the one before; `given` notes that she was given it */
export const clientLinks = async (
  c: Context<DeskService>,
  id: string,
  deed: "show" | "renew" | "given" = "show",
): Promise<Outcome<ClientLinks>> => {
  const link = await c.var.salon.clientLink(id, deed === "renew", deed === "given");
  if (!link.ok) return link;
  const page = pageOf(c, link.value);
  return succeed({ page, feed: `${page}/skin-test.ics` });
};
