/**
 * Lets a signed-in desk through and says which. A form is taken only from a page of the same session: the browser says where it
 * came from (Origin, Sec-Fetch-Site), and the form carries what only that page could know.
 */
import type { Context } from "hono";
import { getCookie } from "hono/cookie";
import { createMiddleware } from "hono/factory";
import { beginningOf, text as line } from "../fields.ts";
import { originOf, salonNamed } from "../env.ts";
import { deskFault } from "./deskFault.tsx";
import type { DeskService } from "./desk.ts";
import { readPressed } from "./readPressed.ts";
import { formToken, isTokenOf, readSession } from "./session.ts";

export const SESSION_COOKIE = "desk";
export const WHO_COOKIE = "who";
const SIGNED_OUT_WORDS = "Nothing was saved. Sign in, go back to the page you came from, and press again.";
/** Pressed twice, the second finds the key renewed by the first. */
export const NEW_KEY_PATH = "/desk/rules/key/use";
const NEW_KEY_WORDS =
  "If this was pressed twice, the new key holds already: sign in with it. If it opens nothing, the key before it still holds, and nothing was changed.";
/** Characters of a name, as the field takes them. */
const WHO_MAX = 100;

const secondsNow = (): number => Math.floor(Date.now() / 1000);

/** The page's own address as forms carry it back, without what the last press said. */
const hereOf = (url: URL): string => {
  const query = new URLSearchParams(url.search);
  query.delete("said");
  const text = query.toString();
  return text === "" ? url.pathname : `${url.pathname}?${text}`;
};

/** Whether a form was sent by a page of this service, as far as the browser says. */
export const isOwnForm = (c: Context<DeskService>): boolean => {
  const site = c.req.header("sec-fetch-site");
  // Pages that pass on no referrer send `Origin: null` with their own forms too (Fetch, "append a request Origin header").
  if (site !== undefined) return site === "same-origin";
  const origin = c.req.header("origin");
  // A page that sends no referrer sends its forms from "null" (Fetch §3.2.2): Sec-Fetch-Site has spoken then, and the token will.
  if (origin === undefined || origin === "null") return true;
  return origin === originOf(c.env, c.req.raw) || origin === new URL(c.req.url).origin;
};

export const signedIn = createMiddleware<DeskService>(async (c, next) => {
  const cookie = getCookie(c, SESSION_COOKIE) ?? "";
  const session = readSession(cookie, c.env.LINK_SECRET, secondsNow());
  const salon = session && salonNamed(c.env, session.salon);
  const head = session && salon ? await salon.deskHead(session.keyHash) : null;
  const isRead = c.req.method === "GET" || c.req.method === "HEAD";
  if (!session || !salon || head === null) {
    const to = isRead ? hereOf(new URL(c.req.url)) : "/desk";
    if (isRead) return c.redirect(`/desk/sign-in?to=${encodeURIComponent(to)}`, 303);
    await c.req.raw.body?.pipeTo(new WritableStream());
    return deskFault(c, {
      status: 401,
      heading: "You are signed out",
      text: c.req.path === NEW_KEY_PATH ? NEW_KEY_WORDS : SIGNED_OUT_WORDS,
      back: "/desk/sign-in",
      backWords: "Sign in",
    });
  }
  const url = new URL(c.req.url);
  c.set("salon", salon);
  c.set("salonId", session.salon);
  c.set("signed", {
    salonId: session.salon,
    token: formToken(cookie, c.env.LINK_SECRET),
    who: readWho(getCookie(c, WHO_COOKIE), head.settings.staff),
    head,
    here: hereOf(url),
    said: url.searchParams.get("said"),
  });
  if (isRead) return next();
  const pressed = await readPressed(c.req.raw);
  if (!pressed.ok) return deskFault(c, pressed.fault);
  const { fields } = pressed.value;
  if (!isOwnForm(c) || !isTokenOf(fields.get("token") ?? "", cookie, c.env.LINK_SECRET)) {
    return deskFault(c, {
      status: 403,
      heading: "This form did not come from your desk",
      text: "Nothing was saved. Open the page at the desk again and press there.",
      back: "/desk",
      backWords: "To the desk",
    });
  }
  c.set("pressed", pressed.value);
  return next();
});

/** Of a salon that names its staff, one of them. */
const readWho = (cookie: string | undefined, staff: readonly string[]): string | null => {
  const name = whoTyped(cookie ?? "");
  return name === "" || (staff.length > 0 && !staff.includes(name)) ? null : name;
};

/** A name as it is kept beside records, in one line; what is longer than any is cut. */
export const whoTyped = (typed: string): string => line.safeParse(beginningOf(typed, WHO_MAX)).data ?? "";
