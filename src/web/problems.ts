/**
 * The one table from an expected failure to its words and its HTTP status (RFC 9457). A new failure does not compile
 * until it has both. A value is quoted only where it is no person's words, address, link or key.
 */
import {
  ANSWERS_PER_DAY_MAX,
  BODY_MAX_BYTES,
  COUNT_BACK_YEARS_MAX,
  DIARIES_MAX,
  DIARY_MAX_BYTES,
  ENTRY_ANSWERS_MAX,
  REPEATS_KEPT_HOURS,
  REQUEST_YEARS_MAX,
  TEXT_MAX,
} from "../bounds.ts";
import type { Refusal } from "../plan/types.ts";
import type { Fault } from "../salon/fault.ts";

/** Failures of the request itself, before any salon is asked. */
export type RequestFault =
  | { readonly code: "no-secrets"; readonly missing: readonly string[] }
  | { readonly code: "not-found" }
  | { readonly code: "method-not-allowed"; readonly method: string; readonly allowed: readonly string[] }
  | { readonly code: "no-key"; readonly whose: "operator" | "salon" }
  | { readonly code: "not-json" }
  | { readonly code: "wrong-type"; readonly type: string; readonly wanted: string }
  | { readonly code: "body-too-large" }
  | { readonly code: "text-too-large"; readonly max: number }
  | { readonly code: "not-utf-8" }
  | { readonly code: "idempotency-key-malformed" }
  | { readonly code: "diary-too-large" }
  | { readonly code: "request-refused"; readonly errors: readonly RequestError[] }
  | { readonly code: "unexpected" }
  | { readonly code: "feed-unavailable" };

/** One thing wrong with a request: where, what it was, what it must be and what to do. */
export interface RequestError {
  readonly at: string;
  readonly value: string | null;
  readonly limit: string;
  readonly remedy: string;
  readonly text: string;
}

export type AnyFault = Fault | RequestFault;

interface Words {
  readonly status: number;
  readonly title: string;
  readonly detail: string;
  readonly errors?: readonly (RequestError | Refusal)[];
  readonly headers?: Readonly<Record<string, string>>;
}

const several = (errors: readonly { readonly text: string }[]): string => errors.map(({ text }) => text).join(" ");

/** Why an entry cannot be what the answer says, and what to do in the diary. */
const NOT_ANSWERABLE = {
  "all-day":
    "The entry has a date and no time, so nothing can be counted back from it. Nothing was kept. Give it a time in the diary; or answer not-colour.",
  "not-certain":
    "When this entry is cannot be read with certainty, so there is nothing to answer. Nothing was kept. Its why says what to mend in the diary.",
  cancelled:
    "The diary calls this entry cancelled, so it is no appointment. Nothing was kept. Enter it anew in the diary if it takes place after all.",
} as const;

/** Words and status of a failure. */
export const wordsOf = (fault: AnyFault): Words => {
  switch (fault.code) {
    case "no-secrets":
      return {
        status: 503,
        title: "Not set up",
        detail: `This service has no ${fault.missing.join(" and no ")}, so it serves nothing. Set each as a secret of the deployment.`,
        headers: { "retry-after": "600" },
      };
    case "not-found":
      return { status: 404, title: "Not found", detail: "There is nothing at this address. GET / says what there is." };
    case "method-not-allowed":
      return {
        status: 405,
        title: "Method not allowed",
        detail: `${fault.method} does nothing here. This address takes ${fault.allowed.join(", ")}.`,
        headers: { allow: fault.allowed.join(", ") },
      };
    case "no-key":
      return {
        status: 401,
        title: "Key needed",
        detail:
          fault.whose === "operator"
            ? "This call needs the operator's key: send Authorization: Bearer with the OPERATOR_KEY of this service."
            : "This call needs a salon's key that holds: send Authorization: Bearer with the key that was shown when the salon was made.",
        headers: { "www-authenticate": 'Bearer realm="countback"' },
      };
    case "not-json":
      return {
        status: 400,
        title: "Not JSON",
        detail: "The body could not be read as JSON. Send one JSON object in UTF-8.",
      };
    case "wrong-type":
      return {
        status: 415,
        title: "Unsupported media type",
        detail: `The body's Content-Type is ${fault.type}; send ${fault.wanted}.`,
        headers: { accept: fault.wanted },
      };
    case "body-too-large":
      return {
        status: 413,
        title: "Too large",
        detail: `The body is larger than the ${BODY_MAX_BYTES} bytes that this call takes. Send less at a time.`,
      };
    case "text-too-large":
      return {
        status: 413,
        title: "Too large",
        detail: `The body is larger than the ${fault.max} bytes that this call takes. Send it in parts. Nothing was kept.`,
      };
    case "not-utf-8":
      return {
        status: 422,
        title: "Not UTF-8",
        detail:
          "The body is not text in UTF-8, so names in it cannot be told. Save it as CSV UTF-8 and send it again. Nothing was kept.",
      };
    case "diary-too-large":
      return {
        status: 413,
        title: "Too large",
        detail: `The diary is larger than the ${DIARY_MAX_BYTES} bytes that are read. Export a shorter span of time. The last good reading stays.`,
      };
    case "request-refused":
      return { status: 422, title: "Cannot be used as it is", detail: several(fault.errors), errors: fault.errors };
    case "settings-refused":
      return { status: 422, title: "Settings refused", detail: several(fault.refusals), errors: fault.refusals };
    case "record-refused":
      return { status: 422, title: "Record refused", detail: several(fault.refusals), errors: fault.refusals };
    case "unexpected":
      return {
        status: 500,
        title: "Fault of this service",
        detail: "Something went wrong that should not. Nothing of this request was kept; try it again.",
      };
    case "feed-unavailable":
      return {
        status: 503,
        title: "Not available just now",
        detail:
          "This calendar cannot be served at the moment. What was read before still holds; ask again in five minutes.",
        headers: { "retry-after": "300" },
      };
    case "no-such-salon":
      return { status: 404, title: "No such salon", detail: "There is no salon behind this key any more." };
    case "settings-changed-meanwhile":
      return {
        status: 412,
        title: "Changed meanwhile",
        detail:
          "The settings have a newer version than If-Match names. GET /api/salon, make the change there, and PUT with its ETag.",
      };
    case "too-many-answers":
      return {
        status: 429,
        title: "Too often",
        detail: `These questions have been answered ${ANSWERS_PER_DAY_MAX} times today, which is as often as a day allows. What was sent last holds. Telephone the salon before you colour your hair or put a skin test on, or answer again tomorrow.`,
        headers: { "retry-after": "86400" },
      };
    case "after-too-far":
      return {
        status: 422,
        title: "Cannot be used as it is",
        detail: `after lies more than ${COUNT_BACK_YEARS_MAX} years ahead: nobody knows the holidays and the clocks of that time. Give a nearer one.`,
      };
    case "no-such-diary":
      return {
        status: 404,
        title: "No such diary",
        detail: `This salon keeps no diary of that name; it keeps ${fault.known.join(", ")}.`,
      };
    case "diary-not-added":
      return {
        status: 422,
        title: "No such diary",
        detail: `This salon keeps no diary of that name, and none can be added under it: a name has at most ${TEXT_MAX} characters, no blank at its ends and none of / \\ ? # %, and a salon keeps at most ${DIARIES_MAX} diaries.`,
      };
    case "diary-is-pulled":
      return {
        status: 409,
        title: "Pulled diary",
        detail: `The diary ${fault.diary} is pulled from an address, so it takes no push. Remove its url from the settings, or push under another name.`,
      };
    case "nothing-held":
      return {
        status: 409,
        title: "Nothing held",
        detail: `No reading of the diary ${fault.diary} is held, so there is nothing to accept.`,
      };
    case "another-held":
      return {
        status: 409,
        title: "Another reading held",
        detail: `The diary ${fault.diary} holds another reading by now than the one that was to be accepted. Nothing was changed.`,
      };
    case "no-such-client":
      return {
        status: 404,
        title: "No such client",
        detail: "This salon has no client of that id. GET /api/salon/clients lists them.",
      };
    case "no-such-other-client":
      return {
        status: 422,
        title: "No such client",
        detail:
          "with names no client of this salon. GET /api/salon/clients lists them with their ids. Nothing was changed.",
      };
    case "no-such-request":
      return {
        status: 404,
        title: "No such request",
        detail:
          "This client has made no request of that id. GET /api/salon/clients/{id} lists them among decisions. Nothing was changed.",
      };
    case "client-is-erased":
      return {
        status: 409,
        title: "Being erased",
        detail:
          "One of the two is being erased and waits for an appointment ahead, so she is joined with nobody. Nothing was changed. Let the erasure finish, or take her appointment out of the diary first.",
      };
    case "received-out-of-range":
      return {
        status: 422,
        title: "Cannot be used as it is",
        detail: `received must be a day of the last ${REQUEST_YEARS_MAX} years, today at the latest: a request is kept once it has come. Nothing was kept. Write the day it was received, or leave it out for today.`,
      };
    case "clients-are-one":
      return {
        status: 409,
        title: "One person",
        detail:
          "Both ids are of one client, who was joined of the two. Nothing was changed. Split her bookings first: POST …/split with those that are another's.",
      };
    case "no-such-settings":
      return {
        status: 404,
        title: "No such settings",
        detail: `The settings of this salon have versions 1 to ${fault.newest}. Ask for one of them, or leave version out for the newest.`,
      };
    case "no-such-booking":
      return {
        status: 422,
        title: "No such booking",
        detail: "This salon has no booking of that uid for that client. GET /api/salon/plans names the bookings.",
      };
    case "no-such-record":
      return {
        status: 404,
        title: "No such record",
        detail: "This salon has no record of that id any more. Nothing was changed.",
      };
    case "no-such-appointment":
      return {
        status: 404,
        title: "No such appointment",
        detail:
          "This salon knows no appointment of that uid, or keeps nothing of it any more. GET /api/salon/plans names those it plans.",
      };
    case "questions-changed":
      return {
        status: 409,
        title: "Questions changed",
        detail: `The answers are to version ${fault.given} of the questions, and version ${fault.current} is asked now. Nothing was kept. GET the questions again and answer those.`,
      };
    case "no-appointment-ahead":
      return {
        status: 409,
        title: "No appointment ahead",
        detail:
          "There is no colour appointment ahead that these answers could be for. Nothing was kept. Answer once there is one, or telephone the salon.",
      };
    case "not-an-appointment-ahead":
      return {
        status: 422,
        title: "No such appointment",
        detail:
          "booking is no appointment ahead of this client: it is unknown here, has passed or is cancelled. Nothing was kept. Leave booking out, and the answers are for the next one.",
      };
    case "answers-refused":
      return { status: 422, title: "Answers not kept", detail: several(fault.refusals), errors: fault.refusals };
    case "no-such-entry":
      return {
        status: 404,
        title: "No such entry",
        detail:
          "No diary of this salon has an entry of that id in sight. GET /api/salon/entries lists them with their ids.",
      };
    case "entry-not-answerable":
      return { status: 409, title: "Nothing to answer here", detail: NOT_ANSWERABLE[fault.ground] };
    case "entry-answer-refused":
      return { status: 422, title: "Answer not kept", detail: several(fault.refusals), errors: fault.refusals };
    case "answers-full":
      return {
        status: 409,
        title: "Too many answers",
        detail: `This salon keeps ${ENTRY_ANSWERS_MAX} answers to entries, and every one of them is in use. Nothing was kept. Add the words that come often to the settings (services, notColour, testWords), take some answers back by DELETE, and answer again.`,
      };
    case "idempotency-key-reused":
      return {
        status: 422,
        title: "Key used before",
        detail: `This Idempotency-Key was sent with another request within the last ${REPEATS_KEPT_HOURS} hours. Nothing was done. Send each new request under a key of its own, and only the very same one under the same key.`,
      };
    case "done-and-gone":
      return {
        status: 410,
        title: "Done, and gone since",
        detail:
          "This request was done before, and what it made has been erased or replaced since. Nothing was done now.",
      };
    case "idempotency-key-malformed":
      return {
        status: 400,
        title: "Key cannot be used",
        detail:
          "Idempotency-Key must be 1 to 255 visible characters without blanks. Nothing was done. Send a random one, such as a UUID.",
      };
    case "link-revoked":
      return { status: 410, title: "Gone", detail: "This link is no longer in use. Ask the salon for a new one." };
    case "link-unknown":
      return {
        status: 404,
        title: "Not found",
        detail: "There is nothing at this address. Ask the salon for your link.",
      };
  }
};

/** A failure as application/problem+json. */
export const problem = (fault: AnyFault): Response => {
  const { status, title, detail, errors, headers } = wordsOf(fault);
  const body = { type: `urn:countback:problem:${fault.code}`, title, status, detail, ...(errors ? { errors } : {}) };
  return new Response(`${JSON.stringify(body)}\n`, {
    status,
    headers: { "content-type": "application/problem+json", "cache-control": "no-store", ...headers },
  });
};
