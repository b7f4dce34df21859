/** What was decided about who a client is, said from her side: the other one is whoever she is not. */
import type { ClientDeed } from "../salon/types.ts";
import { shownWords } from "./evidenceWords.ts";

const WORDS: Readonly<Record<ClientDeed["kind"], string>> = {
  added: "entered by hand",
  confirmed: "the bookings under this name are one person's",
  joined: "two clients are one person",
  split: "some bookings are another person's",
  apart: "two clients are two people",
  request: "asked about her data",
  answered: "her request was answered",
  erasing: "to be erased",
  acknowledged: "what was told was read at the desk",
};

/** Of a split, where she is the one to whom the bookings went. */
const TAKEN = "some bookings that stood under another client are hers";

/** @param client whose page it is. The deed's bookings are hers alone */
export const decisionWords = (
  { client: of, kind, by, other, bookings, reason }: ClientDeed,
  client: string,
): string => {
  const party = other === client ? of : other;
  const about =
    party === null
      ? ""
      : kind === "answered"
        ? ` (request ${party})`
        : kind === "acknowledged"
          ? ` (record ${party})`
          : ` (client ${party})`;
  const listed = kind === "split" && bookings.length > 0 ? `: ${bookings.map(shownWords).join(", ")}` : "";
  return [
    `${kind === "split" && other === client ? TAKEN : WORDS[kind]}${about}${listed}`,
    ...(by === null ? [] : [`by ${shownWords(by)}`]),
    ...(reason === null || reason === "" ? [] : [`because: ${shownWords(reason)}`]),
  ].join(", ");
};
