/** Who may ask what: keys and links are checked here before any salon is woken. */
import { createMiddleware } from "hono/factory";
import { readCheckedLink } from "../salon/checkedLink.ts";
import { hashKey, isSameSecret, type LinkClaim, salonOfKey } from "../salon/link.ts";
import { salonNamed, type Service } from "./env.ts";
import { problem } from "./problems.ts";

const bearerOf = (request: Request): string | undefined =>
  /^Bearer +([A-Za-z0-9._~+/=-]{1,500})$/i.exec(request.headers.get("authorization") ?? "")?.[1];

/** Lets the operator through. */
export const operatorOnly = createMiddleware<Service>(async (c, next) => {
  const key = bearerOf(c.req.raw);
  if (!key || !isSameSecret(key, c.env.OPERATOR_KEY)) return problem({ code: "no-key", whose: "operator" });
  return next();
});

/** Lets a salon through and says which; a key that this service never made wakes nothing. */
export const salonOnly = createMiddleware<Service>(async (c, next) => {
  const key = bearerOf(c.req.raw);
  const id = key ? salonOfKey(key, c.env.LINK_SECRET) : undefined;
  if (!key || !id) return problem({ code: "no-key", whose: "salon" });
  const salon = salonNamed(c.env, id);
  if (!(await salon.holdsKey(hashKey(key)))) return problem({ code: "no-key", whose: "salon" });
  c.set("salon", salon);
  c.set("salonId", id);
  return next();
});

/** The claim of a client's link, or undefined for anything else. */
export const clientClaim = (
  link: string,
  secret: string,
): (LinkClaim & { readonly holder: { readonly client: number } }) | undefined => {
  const claim = readCheckedLink(link, secret);
  return claim && claim.holder !== "salon-feed" ? { ...claim, holder: claim.holder } : undefined;
};

/** The claim of a salon feed's link, or undefined for anything else. */
export const salonFeedClaim = (link: string, secret: string): LinkClaim | undefined => {
  const claim = readCheckedLink(link, secret);
  return claim?.holder === "salon-feed" ? claim : undefined;
};
