/** What the salon's feed calls a client. Never more than the salon chose to show. */
import { LABEL_MAX } from "../bounds.ts";
import { clip } from "./clip.ts";
import { cleanLine } from "./contentLine.ts";

/** Initials of at most this many words: more would tell the name. */
const INITIALS_MAX = 3;

/**
 * `M.T.` for "Marit Tunnock" with `initials`, the name with `names`, null where there is none to show.
 * A name is cut so that the time behind it in a SUMMARY is not.
 */
export const clientLabel = (name: string | null, show: "initials" | "names"): string | null => {
  const clean = cleanLine(name ?? "").trim();
  if (show === "names") return clean === "" ? null : clip(clean, LABEL_MAX);
  const initials = clean
    .split(/\s+/u)
    .flatMap((word) => /[\p{L}\p{N}]/u.exec(word) ?? [])
    .slice(0, INITIALS_MAX);
  return initials.length === 0 ? null : `${initials.join(".").toUpperCase()}.`;
};
