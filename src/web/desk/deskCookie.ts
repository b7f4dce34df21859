/** How the desk's cookies are kept: seen by no script, sent by no other site, and over https alone where there is any. */
import type { Context } from "hono";
import { originOf } from "../env.ts";
import type { DeskService } from "./desk.ts";

/** What a client was looked for by is her name: it stands in a cookie and in no address. */
export const SOUGHT_COOKIE = "sought";
export const SOUGHT_PATH = "/desk/clients";

export const ofDesk = (c: Context<DeskService>) =>
  ({ path: "/desk", httpOnly: true, sameSite: "Lax", secure: isSecure(c) }) as const;

/** Whether the browser speaks https, to this service or to a proxy before it. */
const isSecure = (c: Context<DeskService>): boolean =>
  [originOf(c.env, c.req.raw), c.req.url].some((address) => address.startsWith("https:")) ||
  c.req.header("x-forwarded-proto")?.split(",")[0]?.trim() === "https";
