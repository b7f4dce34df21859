/** The answer to a client's link that opens nothing: a page for a browser, a problem for a program. */
import type { Context } from "hono";
import type { Service } from "./env.ts";
import { PAGE_HEADERS } from "./layout.tsx";
import { linkMessage, MessagePage } from "./messagePage.tsx";
import { prefersHtml } from "./prefersHtml.ts";
import { problem } from "./problems.ts";

/** Whether the link itself is at fault, not what was asked through it. */
export const isOfLink = ({ code }: { readonly code: string }): boolean =>
  code === "link-unknown" || code === "link-revoked";

/** @param isPage whether a person looks at the answer in a browser */
export const refuseLink = (
  c: Context<Service>,
  fault: { readonly code: string },
  isPage: boolean,
): Response | Promise<Response> => {
  const isRevoked = fault.code === "link-revoked";
  if (!isPage) return problem({ code: isRevoked ? "link-revoked" : "link-unknown" });
  return c.html(<MessagePage message={linkMessage(isRevoked)} country={null} />, isRevoked ? 410 : 404, PAGE_HEADERS);
};

/** An address with nothing at it, mistyped or of old: a browser is told so in words. */
export const nothingHere = (c: Context<Service>): Response | Promise<Response> => {
  if (!prefersHtml(c.req.header("accept"))) return problem({ code: "not-found" });
  const message = {
    heading: "There is nothing at this address",
    text: "Check that it is complete. A client's page is at the link that her salon gave her; a salon's own pages begin at /desk.",
    back: null,
  };
  return c.html(<MessagePage message={message} country={null} />, 404, PAGE_HEADERS);
};
