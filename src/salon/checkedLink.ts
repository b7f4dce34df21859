/** Links that were read once: a calendar asks with the same one for years, and its signature does not change. */
import { type LinkClaim, readLink } from "./link.ts";

const checked = new Map<string, LinkClaim>();
const CHECKED_MAX = 5_000;

/** As `readLink`; whether the claim still holds, the salon says. */
export const readCheckedLink = (link: string, secret: string): LinkClaim | undefined => {
  const key = `${secret} ${link}`;
  const known = checked.get(key);
  if (known) return known;
  const claim = readLink(link, secret);
  if (!claim) return undefined;
  if (checked.size >= CHECKED_MAX) checked.clear();
  checked.set(key, claim);
  return claim;
};
