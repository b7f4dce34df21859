/** What is refused at the desk, said to whoever stands there: the salon's own words are for programs. */
import type { Context } from "hono";
import { COUNT_BACK_YEARS_MAX, ENTRY_ANSWERS_MAX, REQUEST_YEARS_MAX } from "../../bounds.ts";
import type { AnyFault } from "../problems.ts";
import type { DeskService } from "./desk.ts";
import { deskFault } from "./deskFault.tsx";

type Words = { readonly status: number; readonly heading: string; readonly text: string };

const WORDS: Readonly<Record<string, Words>> = {
  "no-such-client": {
    status: 404,
    heading: "No such client",
    text: "This salon has no client of that number any more. She may have been erased, or joined with another.",
  },
  "no-such-other-client": {
    status: 422,
    heading: "No such other client",
    text: "The other number is no client of this salon. Nothing was changed. Write it as it stands at the top of her page, such as c12.",
  },
  "clients-are-one": {
    status: 409,
    heading: "The two were joined",
    text: "The two are one client already, and appointments came with each of them. Nothing was changed. To part them, tick the appointments that are another's and split them off.",
  },
  "client-is-erased": {
    status: 409,
    heading: "Being erased",
    text: "One of the two is being erased and waits for an appointment ahead. Nothing was changed. Let it finish, or take her appointment out of the diary first.",
  },
  "no-such-booking": {
    status: 422,
    heading: "Not her appointments any more",
    text: "One of the ticked appointments is not hers any more. Nothing was changed. Open her page again and tick anew.",
  },
  "no-such-request": {
    status: 404,
    heading: "No such request",
    text: "She has made no such request. Nothing was changed.",
  },
  "nothing-held": {
    status: 409,
    heading: "Nothing is held back any more",
    text: "A later reading has taken its place. Look at the diary again.",
  },
  "another-held": {
    status: 409,
    heading: "Another reading is held back by now",
    text: "The diary was read again meanwhile and looked otherwise than what you saw. Nothing was changed. Look at it again, then decide.",
  },
  "no-such-diary": {
    status: 404,
    heading: "No such diary",
    text: "It was taken away meanwhile. Nothing was changed.",
  },
  "diary-is-pulled": {
    status: 409,
    heading: "This diary has an address",
    text: "It is read from there, so it takes no file. Nothing was changed. Bring the file as a diary of another name.",
  },
  "no-such-entry": {
    status: 404,
    heading: "The entry is gone",
    text: "No diary has it in sight any more: it was taken out, or changed so much that it counts as another. Nothing was kept.",
  },
  "entry-not-answerable": {
    status: 409,
    heading: "Nothing to answer here",
    text: "The entry has no certain time, or the diary calls it cancelled, so it can be no appointment. Nothing was kept. Mend it in the diary.",
  },
  "answers-full": {
    status: 409,
    heading: "Too many answers",
    text: `At most ${ENTRY_ANSWERS_MAX} answers are kept, and every one of them is in use. Nothing was kept. Write the words that come often into the rules, or take some answers back.`,
  },
  "no-such-appointment": {
    status: 404,
    heading: "No such appointment",
    text: "No appointment of that name is known here, or nothing of it is kept any more.",
  },
  "after-too-far": {
    status: 422,
    heading: "Too far ahead",
    text: `Nobody knows the holidays and the clocks of more than ${COUNT_BACK_YEARS_MAX} years ahead. Give a nearer day.`,
  },
  "done-and-gone": {
    status: 410,
    heading: "Done before, and gone since",
    text: "This was sent before and done then. What it made has been erased or replaced since. Nothing was done now.",
  },
  "received-out-of-range": {
    status: 422,
    heading: "The day cannot be right",
    text: `A request is kept once it has come: give today or a day of the last ${REQUEST_YEARS_MAX} years. Nothing was saved.`,
  },
};

/** @param back where to go on */
export const sayFault = (c: Context<DeskService>, fault: AnyFault, back: string): Response | Promise<Response> => {
  const words = WORDS[fault.code];
  return words === undefined ? deskFault(c, fault) : deskFault(c, { ...words, back, backWords: "Back" });
};
