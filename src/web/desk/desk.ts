/** What every page of a desk is made from: who is signed in, at which salon, and how forms prove that they are its own. */
import { createHash } from "node:crypto";
import type { Context } from "hono";
import type { Once } from "../../salon/once.ts";
import type { DeskHead } from "../../salon/DeskFace.ts";
import { eventUid } from "../../plan/uid.ts";
import type { FeedContext } from "../../feed/types.ts";
import { clientContext } from "../clientContext.ts";
import { makeLink } from "../../salon/link.ts";
import { originOf, type Service } from "../env.ts";
import type { Pressed } from "./readPressed.ts";

/** Signed in: what the frame of a page, its forms and its words need. */
export interface Signed {
  readonly salonId: string;
  /** Of every form (`formToken`). */
  readonly token: string;
  /** Who works at this screen, as chosen there; null: nobody has said. */
  readonly who: string | null;
  readonly head: DeskHead;
  /** The page's own path with its query, to come back to after a press. */
  readonly here: string;
  /** What was done by the press that led here: a word of `saidWords.ts`; null: nothing. */
  readonly said: string | null;
}

export interface DeskService extends Service {
  Variables: Service["Variables"] & { signed: Signed; pressed: Pressed };
}

/** How a booking is named in addresses of the desk: by its event, since an entry's own UID may hold a person's name. */
export const refOf = (signed: Pick<Signed, "salonId">, booking: string): string =>
  eventUid(signed.salonId, booking, "colour", null);

/** What the words of a plan need at the desk, where a client is called by her name whatever the feeds show. */
export const deskContext = ({ salonId, head: { settings } }: Signed): FeedContext =>
  clientContext(salonId, { ...settings, show: { ...settings.show, clients: "names" } }, "/desk");

/** The page of a client's link, absolute. */
export const pageOf = (
  c: Context<DeskService>,
  { number, generation }: { readonly number: number; readonly generation: number },
): string => {
  const link = makeLink({ salon: c.var.salonId, holder: { client: number }, generation }, c.env.LINK_SECRET);
  return `${originOf(c.env, c.req.raw)}/c/${link}`;
};

const hash = (text: string): string => createHash("sha256").update(text).digest("base64url");

/** Which press this is, so that a form sent twice is done once: by what the page put into the form, and what was chosen there. */
export const onceOf = (c: Context<DeskService>): Once | null => {
  const { fields } = c.var.pressed;
  const mark = fields.get("once");
  if (mark === null) return null;
  const sent = JSON.stringify([c.req.path, [...fields].filter(([name]) => name !== "token")]);
  return { key: hash(`${c.var.signed.salonId}\ndesk\n${sent}`), print: hash(sent) };
};

/** A path of the desk to go to, however it is written (`/desk/..//elsewhere` is none); anything else leads to the first page. */
export const localPath = (path: string | null | undefined): string => {
  if (!path || !/^\/desk[\x21-\x7e]*$/.test(path)) return "/desk";
  const url = new URL(path, "http://desk");
  return /^\/desk(?:\/|$)/.test(url.pathname) ? `${url.pathname}${url.search}${url.hash}` : "/desk";
};

/** The page whose form this is. */
export const backOf = (fields: URLSearchParams): string => localPath(fields.get("back"));

/** Back to the page that was pressed, which then says what was done. */
export const goBack = (c: Context<DeskService>, said: string, to?: string): Response => {
  const path = localPath(to ?? c.var.pressed.fields.get("back"));
  const [address = "/desk", mark] = path.split("#");
  const url = new URL(address, "http://desk");
  url.searchParams.set("said", said);
  return c.redirect(`${url.pathname}${url.search}${mark === undefined ? "" : `#${mark}`}`, 303);
};
