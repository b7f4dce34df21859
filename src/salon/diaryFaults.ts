/** Why a diary could not be read, in words for the desk: one sentence a reason, with the remedy. Exhaustive. */
import type { Suspicion, SuspicionCode } from "../diary/suspicion.ts";
import type { FileRefusal } from "../diary/types.ts";
import type { Why } from "../plan/types.ts";
import type { FetchFault } from "./fetchDiary.ts";

/** A pushed diary that broke off on its way. */
export interface PushFault {
  readonly code: "push-broken-off";
}

export type DiaryFault =
  | FileRefusal
  | FetchFault
  | Suspicion
  | PushFault
  | { readonly code: "hides-names" }
  | { readonly code: "uids-renewed" }
  | { readonly code: "overtaken" };

const addressWords = {
  "not-an-address": "is not an address",
  scheme: "does not begin with https, http, webcals or webcal",
  "local-address": "names this machine or a private network",
} as const;

const HELD = "It is held until it is seen again or you accept it; the last good reading stays.";

/** Statuses of an address that no longer holds, or asks for a key it was not given. */
const GONE: ReadonlySet<number> = new Set([401, 403, 404, 410]);

const adviceOn = ({ status, retryAfterSeconds }: Extract<FetchFault, { code: "answered-badly" }>): string => {
  if (GONE.has(status)) return "Check in the calendar program that the address still holds.";
  const again = "The last good reading stays; it will be tried again";
  if (retryAfterSeconds === null || retryAfterSeconds === 0) return `${again}.`;
  const minutes = Math.ceil(retryAfterSeconds / 60);
  return `It asks to be left alone for ${minutes === 1 ? "a minute" : `${minutes} minutes`} from then on. ${again} after that, and not sooner.`;
};

const bookingsIn = (count: number): string => (count === 1 ? "1 booking" : `${count} bookings`);

/** What looks wrong, one sentence a reason. */
const suspicionOf = (code: SuspicionCode, { before, left, moved }: Suspicion): string => {
  switch (code) {
    case "diary-emptied":
      return `This reading has no entry at all, where ${bookingsIn(before)} lay ahead.`;
    case "diary-shrunk":
      return `This reading has ${left} of the ${bookingsIn(before)} that lay ahead.`;
    case "calendar-renamed":
      return "The calendar has another name than before, so its address may now serve another one.";
    case "producer-changed":
      return "Another program than before wrote the calendar, so its address may now serve another one.";
    case "dates-jumped":
      return `In this reading ${moved} of the ${bookingsIn(left)} still ahead have moved at once.`;
  }
};

const textOf = (fault: DiaryFault): string => {
  switch (fault.code) {
    case "diary-not-calendar":
      return "What came is not a calendar. Check that it is the iCalendar feed or file itself; an address must need no signing in.";
    case "diary-cut-off":
      return `The calendar was cut off before END:${fault.open}. The last good reading stays. One that is pulled will be tried again; send a pushed one again.`;
    case "diary-too-large":
      return `The calendar has ${fault.bytes} bytes or more; at most ${fault.max} are read. Export a shorter span of time.`;
    case "address-refused":
      return `The diary's address ${fault.sentOn ? "sends on to one that " : ""}${addressWords[fault.fault]}, so ${fault.sentOn ? "that one" : "it"} is not asked. Give the public address of the feed.`;
    case "no-answer":
      return "The diary's address did not answer in full. The last good reading stays; it will be tried again.";
    case "push-broken-off":
      return "What was sent broke off on its way. The last good reading stays; send it again.";
    case "answered-badly":
      return `The diary's address answered with status ${fault.status}. ${adviceOn(fault)}`;
    case "too-many-redirects":
      return `The diary's address sent on more than ${fault.max} times. Give the final address.`;
    case "diary-emptied":
    case "diary-shrunk":
    case "calendar-renamed":
    case "producer-changed":
    case "dates-jumped":
      return [fault.code, ...fault.also].map((code) => suspicionOf(code, fault)).join(" ") + ` ${HELD}`;
    case "hides-names":
      return "This export hides names, so no booking can be made of it. Export the calendar with its details.";
    case "uids-renewed":
      return "This export gives every entry a new UID at each reading; bookings are matched by client, service and time.";
    case "overtaken":
      return "A later reading of this diary was applied first.";
  }
};

export const diaryWhy = (fault: DiaryFault): Why => ({ code: fault.code, text: textOf(fault) });
