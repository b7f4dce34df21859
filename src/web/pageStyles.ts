/** What `/countback.css` holds: the one stylesheet, and what only pages need that are not kept as a file. */
import { createHash } from "node:crypto";
import { CHAIN_STYLES } from "./chainStyles.ts";
import { FRONT_STYLES } from "./frontStyles.ts";
import { STYLESHEET } from "./stylesheet.ts";

export const PAGE_STYLES = [STYLESHEET, CHAIN_STYLES, FRONT_STYLES].join("");

/** Of the stylesheet as it is now: a browser may keep it as long as it likes. */
export const PAGE_STYLES_ADDRESS = `/countback.css?${createHash("sha256").update(PAGE_STYLES).digest("base64url").slice(0, 8)}`;
