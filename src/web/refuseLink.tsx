/** The answer to a client's link that opens nothing: a page for a browser, a problem for a program. */
import type { Context } from "hono";
import type { Service } from "./env.ts";
import { PAGE_HEADERS } from "./layout.tsx";
import { linkMessage, MessagePage } from "./messagePage.tsx";
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
