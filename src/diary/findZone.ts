/**
 * The IANA zone that a TZID names: by its own name, behind a producer's prefix, or by its Windows name. Never guesses from a
 * city, an abbreviation or an offset: what it does not know is undefined.
 */
import { Zone } from "../time/zone.ts";
import { WINDOWS_LABELS } from "./windowsLabels.ts";
import { WINDOWS_ZONES } from "./windowsZones.ts";

/**
 * The names without an area that the IANA database holds. A runtime's own list is wider: it also knows BST (as Dhaka's
 * time), IST, CST and other abbreviations that mean several clocks.
 */
const PLAIN_NAMES = new Set(
  (
    "utc uct gmt zulu universal greenwich gmt0 gmt+0 gmt-0 est mst hst est5edt cst6cdt mst7mdt pst8pdt wet cet met eet " +
    "cuba egypt eire gb gb-eire hongkong iceland iran israel jamaica japan kwajalein libya navajo nz nz-chat poland portugal " +
    "prc roc rok singapore turkey w-su"
  ).split(" "),
);
/** Areas that runtimes know and the IANA database does not. */
const FOREIGN_AREA = /^(?:systemv|posix|right)\//i;

/** A TZID as it is compared: quotes, backslashes and stray blanks taken off. */
export const cleanZoneName = (tzid: string): string => tzid.replace(/["\\]/g, "").replace(/\s+/g, " ").trim();

/** The zone a TZID names, or undefined. */
export const findZone = (tzid: string): Zone | undefined => {
  const name = cleanZoneName(tzid);
  if (name === "") return undefined;
  return byIanaName(name) ?? behindPrefix(name) ?? byWindowsName(name);
};

const byIanaName = (name: string): Zone | undefined => {
  if (!name.includes("/")) return PLAIN_NAMES.has(name.toLowerCase()) ? Zone.named(name) : undefined;
  return FOREIGN_AREA.test(name) ? undefined : Zone.named(name);
};

/** `/mozilla.org/20050126_1/Europe/London`, `/America/New_York`, `/example.org/America/Argentina/Salta`. */
const behindPrefix = (name: string): Zone | undefined => {
  const parts = name.split("/").filter((part) => part !== "");
  for (const length of [3, 2]) {
    if (parts.length < length) continue;
    const zone = byIanaName(parts.slice(-length).join("/"));
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
