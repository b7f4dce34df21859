/** What a decision about a client is refused for, said to whoever stands at the desk. */
import type { Context } from "hono";
import { REQUEST_YEARS_MAX } from "../../bounds.ts";
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
  "received-out-of-range": {
    status: 422,
    heading: "The day cannot be right",
    text: `A request is kept once it has come: give today or a day of the last ${REQUEST_YEARS_MAX} years. Nothing was saved.`,
  },
};

/** @param back where to go on: her page, or the list where there is none */
export const clientFault = (c: Context<DeskService>, fault: AnyFault, back: string): Response | Promise<Response> => {
  const words = WORDS[fault.code];
  const to = fault.code === "no-such-client" ? "/desk/clients" : back;
  return words === undefined ? deskFault(c, fault) : deskFault(c, { ...words, back: to, backWords: "Back" });
};
