/** Signs a screen in to a salon's desk. */
import type { Context } from "hono";
import { setCookie } from "hono/cookie";
import { KEPT_SIGNED_IN_DAYS, SIGNED_IN_HOURS } from "../../bounds.ts";
import { hashKey } from "../../salon/link.ts";
import { DAY_SECONDS, HOUR } from "../../time/instant.ts";
import type { DeskService } from "./desk.ts";
import { ofDesk } from "./deskCookie.ts";
import { makeSession } from "./session.ts";
import { SESSION_COOKIE } from "./signedIn.ts";

/**
 * @param key that opens the salon
 * @param isKept for a month; else until the browser is closed, and a working day at most
 * @returns the cookie's text, for the tokens of forms on the page that is answered
 */
export const openSession = (c: Context<DeskService>, salon: string, key: string, isKept: boolean): string => {
  const seconds = isKept ? KEPT_SIGNED_IN_DAYS * DAY_SECONDS : SIGNED_IN_HOURS * HOUR;
  const until = Math.floor(Date.now() / 1000) + seconds;
  const session = makeSession({ salon, keyHash: hashKey(key), until }, c.env.LINK_SECRET);
  setCookie(c, SESSION_COOKIE, session, { ...ofDesk(c), ...(isKept ? { maxAge: seconds } : {}) });
  return session;
};
