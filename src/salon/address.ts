/**
 * Which addresses a diary may be pulled from: http(s) and webcal(s) of public hosts, checked again at each redirect.
 * Looks at the address only; what a public name resolves to is the platform's to guard (DEVELOPERS.md).
 */
import { ADDRESS_MAX } from "../bounds.ts";
import { isSpecialV4, isSpecialV6 } from "./specialAddresses.ts";

export type AddressFault = "not-an-address" | "scheme" | "local-address";

/**
 * Last labels of names that mean this machine or this network and never a public host. RFC 6761 (localhost), RFC 6762
 * (local; its appendix G has the private names in use: intranet, internal, private, corp, home, lan), RFC 8375 (home.arpa),
 * ICANN's reservation of internal (2024); localdomain and svc are what hosts files and clusters use: common practice.
 */
const LOCAL_NAME =
  /(^|\.)(localhost|localdomain|local|internal|lan|home|intranet|corp|private|home\.arpa|svc|localhost[46]|localdomain[46])$/;

/** What the URL parser would silently take out, so that the address read is not the one written. */
const CONTROL = /\p{Cc}/u;

/** A cloud's metadata service by a name of its own; it resolves to a link-local address inside that cloud alone. */
const METADATA_NAME = /(^|\.)metadata\.goog$/;

/** The URL parser has put every spelling of a host into one form before this looks at it. */
const isLocal = (host: string): boolean => {
  if (host.startsWith("[")) return isSpecialV6(host.slice(1, -1));
  if (/^\d+\.\d+\.\d+\.\d+$/.test(host)) return isSpecialV4(host);
  const name = host.replace(/\.$/, "").toLowerCase();
  return !name.includes(".") || LOCAL_NAME.test(name) || METADATA_NAME.test(name);
};

/** An empty label, or a name longer than names can be (RFC 1035 §2.3.4), is of no host. */
const isNoName = (host: string): boolean => {
  const name = host.replace(/\.$/, "");
  return name === "" || name.length > 253 || name.split(".").includes("");
};

/**
 * The address to ask, with webcal turned to http(s), or why it may not be asked.
 * @param allowLocal only ever set by the local start command, whose demo diaries live on this machine
 */
export const diaryAddress = (text: string, allowLocal: boolean): URL | AddressFault => {
  const written = text.trim();
  if (written.length > ADDRESS_MAX || CONTROL.test(written)) return "not-an-address";
  const url = URL.parse(written.replace(/^webcal(s?):/i, (_all, s: string) => (s ? "https:" : "http:")));
  if (!url) return "not-an-address";
  if (url.protocol !== "https:" && url.protocol !== "http:") return "scheme";
  if (!url.hostname.startsWith("[") && isNoName(url.hostname)) return "not-an-address";
  return isLocal(url.hostname) && !allowLocal ? "local-address" : url;
};
