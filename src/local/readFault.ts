/** Why a calendar named to the command was refused or not read, in words with the remedy. One table, exhaustive. */
import type { FileRefusal } from "../diary/types.ts";
import type { Why } from "../plan/types.ts";
import type { AddressFault } from "../salon/address.ts";
import type { FetchFault } from "../salon/fetchDiary.ts";

export type ReadFault =
  | FileRefusal
  | FetchFault
  | { readonly code: "not-found" }
  | { readonly code: "not-readable"; readonly cause: string }
  | { readonly code: "no-calendar-in-folder"; readonly wanted: string };

const ADDRESS_WORDS: Readonly<Record<AddressFault, string>> = {
  "not-an-address": "The address is none that can be asked. Copy it again from the calendar program.",
  scheme: "The address begins with none of https, http, webcals and webcal. Give one that does, or a file.",
  "local-address": "The address is of this machine or a private network. Add --allow-local if that is meant.",
};

const adviceOn = (status: number): string => {
  if (status === 401 || status === 403)
    return "It asks for signing in. Take the address from the calendar program by which it is shared.";
  if (status === 404 || status === 410) return "Check in the calendar program that it still holds.";
  return status === 429 || status >= 500 ? "Wait a while, and try again." : "Check it in a browser, and try again.";
};

const textOf = (fault: ReadFault): string => {
  switch (fault.code) {
    case "diary-not-calendar":
      return fault.begins === ""
        ? "It is empty. Export the calendar again."
        : `It is no calendar: it begins "${fault.begins}". Give the iCalendar file or feed itself, at an address that needs no signing in.`;
    case "diary-cut-off":
      return `It is cut off: there is no END:${fault.open}. Export it, or download it, again.`;
    case "diary-too-large":
      return `It is larger than ${fault.max} bytes, and only those were read. Export a shorter span of time.`;
    case "address-refused":
      return ADDRESS_WORDS[fault.fault];
    case "no-answer":
      return "The address did not answer in full. Check it in a browser, and try again.";
    case "answered-badly":
      return `The address answered with status ${fault.status}. ${adviceOn(fault.status)}`;
    case "too-many-redirects":
      return `The address sent on more than ${fault.max} times. Give the final address.`;
    case "not-found":
      return "There is no such file or folder. Check the path.";
    case "not-readable":
      return `It could not be read to its end (${fault.cause}). Check that it may be read.`;
    case "no-calendar-in-folder":
      return `The folder holds no file that ends in ${fault.wanted}. Name a file in it to read that one.`;
  }
};

export const readWhy = (fault: ReadFault): Why => ({ code: fault.code, text: textOf(fault) });
