/**
 * Pulls one diary from its address: conditional, bounded in time, size and redirects. The only file that calls out.
 * Never logs or returns the address, which may hold credentials.
 */
import { Buffer } from "node:buffer";
import { DIARY_FETCH_REDIRECTS, DIARY_FETCH_TIMEOUT_MS } from "../bounds.ts";
import { type AddressFault, diaryAddress } from "./address.ts";

export interface Validators {
  readonly etag: string | null;
  readonly lastModified: string | null;
}

export type FetchFault =
  | { readonly code: "address-refused"; readonly fault: AddressFault }
  | { readonly code: "no-answer" }
  | { readonly code: "answered-badly"; readonly status: number; readonly retryAfterSeconds: number | null }
  | { readonly code: "too-many-redirects"; readonly max: number };

export type Fetched =
  | { readonly kind: "unchanged" }
  | ({ readonly kind: "body"; readonly body: ReadableStream<Uint8Array> } & Validators)
  | { readonly kind: "fault"; readonly fault: FetchFault };

const fault = (of: FetchFault): Fetched => ({ kind: "fault", fault: of });

/** Seconds that Retry-After asks for, whether it gives seconds or a date. */
const retryAfter = (value: string | null, nowMs: number): number | null => {
  if (value === null) return null;
  if (/^\d{1,7}$/.test(value.trim())) return Number(value);
  const until = Date.parse(value);
  return Number.isNaN(until) ? null : Math.max(0, Math.ceil((until - nowMs) / 1000));
};

/** Credentials of an address as RFC 7617 sends them, in UTF-8; undefined where they cannot be decoded. */
const basicOf = ({ username, password }: URL): string | undefined => {
  try {
    const text = `${decodeURIComponent(username)}:${decodeURIComponent(password)}`;
    return `Basic ${Buffer.from(text, "utf8").toString("base64")}`;
  } catch {
    return undefined;
  }
};

/**
 * @param allowLocal lets the address be of this machine: the local demo only
 * @param nowMs for a Retry-After that is a date
 */
export const fetchDiary = async (
  address: string,
  validators: Validators,
  allowLocal: boolean,
  nowMs: number,
): Promise<Fetched> => {
  const signal = AbortSignal.timeout(DIARY_FETCH_TIMEOUT_MS);
  const headers = new Headers({ accept: "text/calendar, text/plain;q=0.8, */*;q=0.5", "user-agent": "Countback/1" });
  if (validators.etag) headers.set("if-none-match", validators.etag);
  if (validators.lastModified) headers.set("if-modified-since", validators.lastModified);
  let next = address;
  for (let hop = 0; hop <= DIARY_FETCH_REDIRECTS; hop++) {
    const url = diaryAddress(next, allowLocal);
    if (typeof url === "string") return fault({ code: "address-refused", fault: url });
    if (url.username || url.password) {
      const basic = basicOf(url);
      if (!basic) return fault({ code: "address-refused", fault: "not-an-address" });
      headers.set("authorization", basic);
      url.username = "";
      url.password = "";
    }
    let answer: Response;
    try {
      answer = await fetch(url, { headers, redirect: "manual", signal });
    } catch {
      return fault({ code: "no-answer" });
    }
    // A 304 to a question without validators says nothing that could be kept.
    const isAsked = validators.etag !== null || validators.lastModified !== null;
    if (answer.status === 304 && isAsked) return { kind: "unchanged" };
    const location = answer.headers.get("location");
    if (answer.status >= 300 && answer.status < 400 && location) {
      await answer.body?.cancel();
      const target = URL.parse(location, url);
      if (!target) return fault({ code: "address-refused", fault: "not-an-address" });
      if (target.origin !== url.origin) headers.delete("authorization");
      next = target.href;
      continue;
    }
    if (!answer.ok || !answer.body) {
      await answer.body?.cancel();
      const seconds = retryAfter(answer.headers.get("retry-after"), nowMs);
      return fault({ code: "answered-badly", status: answer.status, retryAfterSeconds: seconds });
    }
    return {
      kind: "body",
      body: answer.body,
      etag: answer.headers.get("etag"),
      lastModified: answer.headers.get("last-modified"),
    };
  }
  return fault({ code: "too-many-redirects", max: DIARY_FETCH_REDIRECTS });
};
