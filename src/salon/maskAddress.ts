/**
 * A diary's address without the user and the password in it, as it may leave the salon; and back to the address, where it
 * comes in as it went out. The rest of an address, a secret path too, is the salon's own to see. Pure.
 */
import type { Settings } from "../settings.ts";
import { diaryAddress } from "./address.ts";

/** Stands for the user and for the password, whichever there is. */
const MARK = "***";

/** What is shown of an address that holds something before an @ but cannot be taken apart. */
const UNREADABLE = `${MARK}@${MARK}`;

export const maskAddress = (text: string): string => {
  const url = diaryAddress(text, true);
  if (typeof url === "string") return text.includes("@") ? UNREADABLE : text;
  if (!url.username && !url.password) return text;
  url.username = MARK;
  url.password = MARK;
  const scheme = /^webcals?:/i.exec(text.trim())?.[0].toLowerCase();
  return scheme ? url.href.replace(/^https?:/, scheme) : url.href;
};

/** Whether an address is a masked one: it could be asked of nobody. */
export const isMasked = (text: string): boolean => {
  if (text === UNREADABLE) return true;
  const url = diaryAddress(text, true);
  return typeof url !== "string" && url.username === MARK && url.password === MARK;
};

/** The settings with every diary's address masked. */
export const maskSettings = (settings: Settings): Settings => ({
  ...settings,
  diaries: settings.diaries.map((diary) => ({ ...diary, url: diary.url === null ? null : maskAddress(diary.url) })),
});

/**
 * The settings given, with the address that is stored wherever a diary's is that one masked. Another mask stays as it is,
 * and is refused: who knows the mask alone must not move the password to another address.
 */
export const unmaskSettings = (given: Settings, stored: Settings): Settings => {
  const urls = new Map(stored.diaries.map(({ name, url }) => [name, url]));
  const diaries = given.diaries.map((diary) => {
    const url = urls.get(diary.name);
    const isSame =
      diary.url !== null && typeof url === "string" && isMasked(diary.url) && diary.url === maskAddress(url);
    return isSame ? { ...diary, url } : diary;
  });
  return { ...given, diaries };
};
