/**
 * Pulls one diary from its address: conditional, bounded in time, size and redirects. The only file that calls out.
 * Never logs or returns the address, which may hold credentials.
 */
import { Buffer } from "node:buffer";
import { DIARY_FETCH_REDIRECTS, DIARY_FETCH_TIMEOUT_MS, DIARY_MAX_BYTES, VALIDATOR_MAX } from "../bounds.ts";
import type { Instant } from "../time/instant.ts";
import { type AddressFault, diaryAddress } from "./address.ts";
import { boundBody } from "./boundBody.ts";
import { retryAfterSeconds } from "./retryAfter.ts";

export interface Validators {
  readonly etag: string | null;
  readonly lastModified: string | null;
}

export type FetchFault =
  /** `sentOn`: not the address itself, but where it sends on to. */
  | { readonly code: "address-refused"; readonly fault: AddressFault; readonly sentOn: boolean }
  | { readonly code: "no-answer" }
  | { readonly code: "answered-badly"; readonly status: number; readonly retryAfterSeconds: number | null }
  | { readonly code: "too-many-redirects"; readonly max: number };

export type Fetched =
  | { readonly kind: "unchanged" }
  | ({ readonly kind: "body"; readonly body: ReadableStream<Uint8Array> } & Validators)
  | { readonly kind: "fault"; readonly fault: FetchFault };

/** Statuses that say where to ask instead (RFC 9110 §15.4); 300 offers a choice, 304 and 305 mean something else. */
const SENT_ON: ReadonlySet<number> = new Set([301, 302, 303, 307, 308]);

const fault = (of: FetchFault): Fetched => ({ kind: "fault", fault: of });

/** A validator fit to be kept and sent back as it came, weak or strong; null for one too long or of other characters. */
const validatorOf = (header: string | null): string | null =>
  header !== null && header.length <= VALIDATOR_MAX && /^[\x21-\x7e](?:[\x20-\x7e]*[\x21-\x7e])?$/.test(header)
    ? header
    : null;

/** Credentials of an address as RFC 7617 sends them, in UTF-8; undefined where they cannot be decoded. */
const basicOf = ({ username, password }: URL): string | undefined => {
  try {
    const text = `${decodeURIComponent(username)}:${decodeURIComponent(password)}`;
    return `Basic ${Buffer.from(text, "utf8").toString("base64")}`;
  } catch {
    return undefined;
  }
};

/** An answer that is not read; its sender is let go, whatever comes of that. */
const letGo = (answer: Response): void => void answer.body?.cancel().catch(() => {});

/**
 * Credentials go to the origin they were given for and, once a redirect has left it, nowhere again; those that a redirect
 * itself brings are never sent. Only a 200 is a diary: other answers of success are parts, or were changed on their way.
 * @param allowLocal lets the address be of this machine: the local demo only
 * @param now for a Retry-After that is a date
 */
export const fetchDiary = async (
  address: string,
  validators: Validators,
  allowLocal: boolean,
  now: Instant,
): Promise<Fetched> => {
  const signal = AbortSignal.timeout(DIARY_FETCH_TIMEOUT_MS);
  const headers = new Headers({ accept: "text/calendar, text/plain;q=0.8, */*;q=0.5", "user-agent": "Countback/1" });
  const [etag, lastModified] = [validatorOf(validators.etag), validatorOf(validators.lastModified)];
  if (etag) headers.set("if-none-match", etag);
  if (lastModified) headers.set("if-modified-since", lastModified);
  let next = address;
  for (let hop = 0; hop <= DIARY_FETCH_REDIRECTS; hop++) {
    const url = diaryAddress(next, allowLocal);
    if (typeof url === "string") return fault({ code: "address-refused", fault: url, sentOn: hop > 0 });
    if (hop === 0 && (url.username || url.password)) {
      const basic = basicOf(url);
      if (!basic) return fault({ code: "address-refused", fault: "not-an-address", sentOn: false });
      headers.set("authorization", basic);
    }
    url.username = "";
    url.password = "";
    let answer: Response;
    try {
      answer = await fetch(url, { headers, redirect: "manual", signal });
    } catch {
      return fault({ code: "no-answer" });
    }
    if (answer.status === 200) {
      const body = answer.body ? boundBody(answer.body, DIARY_MAX_BYTES, signal) : new Blob().stream();
      const { headers: said } = answer;
      return {
        kind: "body",
        body,
        etag: validatorOf(said.get("etag")),
        lastModified: validatorOf(said.get("last-modified")),
      };
    }
    letGo(answer);
    // A 304 to a question without validators says nothing that could be kept.
    if (answer.status === 304 && (etag || lastModified)) return { kind: "unchanged" };
    const location = answer.headers.get("location");
    if (!SENT_ON.has(answer.status) || !location) {
      const seconds = retryAfterSeconds(answer.headers.get("retry-after"), now);
      return fault({ code: "answered-badly", status: answer.status, retryAfterSeconds: seconds });
    }
    const target = URL.parse(location, url);
    if (!target) return fault({ code: "address-refused", fault: "not-an-address", sentOn: true });
    if (target.origin !== url.origin) headers.delete("authorization");
    next = target.href;
  }
  return fault({ code: "too-many-redirects", max: DIARY_FETCH_REDIRECTS });
};
