/**
 * Which diaries' addresses may not be saved, so that whoever gives one hears of it at once and not from the feed. Says what
 * is wrong and never the address. Pure.
 */
import { refusal } from "../plan/refusal.ts";
import type { Refusal } from "../plan/types.ts";
import type { Settings } from "../settings.ts";
import { type AddressFault, diaryAddress } from "./address.ts";
import { isMasked } from "./maskAddress.ts";

type Words = Pick<Refusal, "limit" | "remedy"> & { readonly reason: string };

const WORDS: Readonly<Record<AddressFault | "masked", Words>> = {
  "not-an-address": {
    limit: "an address that can be read",
    reason: "what stands there names no host, or holds signs that no address has",
    remedy: "copy it anew from the calendar program",
  },
  scheme: {
    limit: "an address that begins with https, http, webcals or webcal",
    reason: "nothing else is asked for a diary",
    remedy: "give the address of the calendar's iCalendar feed",
  },
  "local-address": {
    limit: "an address on the public internet",
    reason: "this one names the machine itself or a private network, which is never asked",
    remedy: "give the calendar's public address, or push the diary instead",
  },
  masked: {
    limit: "an address with its own user and password",
    reason: "asterisks stand for those of another address than the one that is stored under this name",
    remedy: "write the whole address once more",
  },
};

/**
 * @param stored the settings that hold; an address that stands there already is not refused anew, or no other setting could
 * be changed until it is mended: it is refused when it is asked
 */
export const refuseAddresses = (
  settings: Settings,
  stored: Settings | undefined,
  allowLocal: boolean,
): readonly Refusal[] => {
  const held = new Map(stored?.diaries.map(({ name, url }) => [name, url]));
  return settings.diaries.flatMap(({ name, url }, index) => {
    if (url === null || url === "" || held.get(name) === url) return [];
    const read = isMasked(url) ? "masked" : diaryAddress(url, allowLocal);
    if (typeof read !== "string") return [];
    return [refusal({ code: "diary-address", at: `diaries[${index}].url`, value: null, ...WORDS[read] })];
  });
};
