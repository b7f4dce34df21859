/** What somebody who stands at the desk, or follows her link, sees where there is no page, or where this service fails: no JSON. */
import type { Context } from "hono";
import { deskFault } from "./desk/deskFault.tsx";
import type { DeskService } from "./desk/desk.ts";
import type { Service } from "./env.ts";
import { PAGE_HEADERS } from "./layout.tsx";
import { MessagePage } from "./messagePage.tsx";
import { prefersHtml } from "./prefersHtml.ts";
import { isForm } from "./readBody.ts";

const NO_SUCH_PAGE = { status: 404, heading: "No such page", text: "The desk has no page at this address." };
const FAILED = {
  status: 500,
  heading: "This did not work",
  text: "Something went wrong in this service that should not. What was pressed may not be saved: open the page anew, look, and press again. If it fails again, do not wait for it: telephone.",
};
const TO_DESK = { back: "/desk", backWords: "To the desk" };

/** Whether a browser shows the answer to somebody. */
const isShown = (c: Context<Service>): boolean => prefersHtml(c.req.header("accept")) || isForm(c.req.raw);
const isAt = (c: Context<Service>, place: "desk" | "c"): boolean => c.req.path.split("/")[1] === place;

/** Undefined where a program asks. */
export const noSuchPage = (c: Context<Service>): Response | Promise<Response> | undefined =>
  isAt(c, "desk") && isShown(c)
    ? deskFault(c as unknown as Context<DeskService>, { ...NO_SUCH_PAGE, ...TO_DESK })
    : undefined;

/** The same where this service fails. */
export const failedPage = (c: Context<Service>): Response | Promise<Response> | undefined => {
  if (!isShown(c)) return undefined;
  if (isAt(c, "desk")) return deskFault(c as unknown as Context<DeskService>, { ...FAILED, ...TO_DESK });
  if (!isAt(c, "c") || c.req.path.endsWith(".ics")) return undefined;
  return c.html(<MessagePage message={{ ...FAILED, back: null }} country={null} />, 500, PAGE_HEADERS);
};
