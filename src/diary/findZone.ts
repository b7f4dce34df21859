/**
 * The IANA zone that a TZID names: by its own name, behind a producer's prefix, or by its Windows name. Never guesses from a
 * city, an abbreviation or an offset: what it does not know is undefined.
 */
import { Zone } from "../time/zone.ts";
import { WINDOWS_LABELS } from "./windowsLabels.ts";
import { WINDOWS_ZONES } from "./windowsZones.ts";

/** A TZID as it is compared: quotes, backslashes and stray blanks taken off. */
export const cleanZoneName = (tzid: string): string => tzid.replace(/["\\]/g, "").replace(/\s+/g, " ").trim();

/** The zone a TZID names, or undefined. */
export const findZone = (tzid: string): Zone | undefined => {
  const name = cleanZoneName(tzid);
  if (name === "") return undefined;
  return Zone.named(name) ?? behindPrefix(name) ?? byWindowsName(name);
};

/** `/mozilla.org/20050126_1/Europe/London`, `/America/New_York`, `/example.org/America/Argentina/Salta`. */
const behindPrefix = (name: string): Zone | undefined => {
  const parts = name.split("/").filter((part) => part !== "");
  for (const length of [3, 2]) {
    if (parts.length < length) continue;
    const zone = Zone.named(parts.slice(-length).join("/"));
    if (zone) return zone;
  }
  const last = parts.at(-1)?.toLowerCase() ?? "";
  return name.includes("/") && (last === "utc" || last === "gmt") ? Zone.named("Etc/UTC") : undefined;
};

const byWindowsName = (name: string): Zone | undefined => {
  const small = name.toLowerCase();
  const label = small
    .replace(/^\((?:utc|gmt)[^)]*\) ?/, "")
    .replaceAll("&", "and")
    .replace(/ ?[:;,] ?/g, ", ");
  const zone = WINDOWS_ZONES.get(small) ?? WINDOWS_LABELS.get(label);
  return zone === undefined ? undefined : Zone.named(zone);
};
