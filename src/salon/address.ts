/**
 * Which addresses a diary may be pulled from: http(s) and webcal(s) of public hosts, checked again at each redirect.
 * Looks at the address only; what a public name resolves to is the platform's to guard (DEVELOPERS.md).
 */
export type AddressFault = "not-an-address" | "scheme" | "local-address";

/** Names that mean this machine or this network and never a public host. */
const LOCAL_NAME = /(^|\.)(localhost|local|internal|lan|home|intranet|corp|home\.arpa)$/;

const isPrivateV4 = (host: string): boolean => {
  const [a, b] = host.split(".").map(Number) as [number, number];
  return (
    a === 0 ||
    a === 10 ||
    a === 127 ||
    a >= 224 ||
    (a === 100 && b >= 64 && b <= 127) ||
    (a === 169 && b === 254) ||
    (a === 172 && b >= 16 && b <= 31) ||
    (a === 192 && (b === 168 || b === 0)) ||
    (a === 198 && (b === 18 || b === 19))
  );
};

/** The URL parser has put every spelling of a number into one form before this looks at it. */
const isLocal = (host: string): boolean => {
  if (host.startsWith("[")) return !/^\[[23]/.test(host) || /^\[2002:|^\[2001:(0|db8):/.test(host);
  if (/^\d+\.\d+\.\d+\.\d+$/.test(host)) return isPrivateV4(host);
  const name = host.replace(/\.$/, "").toLowerCase();
  return !name.includes(".") || LOCAL_NAME.test(name);
};

/**
 * The address to ask, with webcal turned to http(s), or why it may not be asked.
 * @param allowLocal only ever set by the local start command, whose demo diaries live on this machine
 */
export const diaryAddress = (text: string, allowLocal: boolean): URL | AddressFault => {
  const url = URL.parse(text.trim().replace(/^webcal(s?):/i, (_all, s: string) => (s ? "https:" : "http:")));
  if (!url) return "not-an-address";
  if (url.protocol !== "https:" && url.protocol !== "http:") return "scheme";
  return isLocal(url.hostname) && !allowLocal ? "local-address" : url;
};

/** The address without what may be secret in it: for the desk's own eyes and for logs. */
export const hostOf = (text: string): string => {
  const url = diaryAddress(text, true);
  return typeof url === "string" ? "an address that cannot be read" : url.host;
};
