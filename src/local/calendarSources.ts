/** Files, folders, addresses and piped text → named streams of octets. Never prints an address's credentials or path. */
import { createReadStream } from "node:fs";
import { readdir, stat } from "node:fs/promises";
import { extname, join } from "node:path";
import { diaryAddress } from "../salon/address.ts";
import { diaryWhy } from "../salon/diaryFaults.ts";
import { fetchDiary } from "../salon/fetchDiary.ts";

export type CalendarSource =
  | { readonly name: string; readonly open: () => AsyncIterable<Uint8Array> }
  | { readonly name: string; readonly fault: string };

const EXTENSIONS: ReadonlySet<string> = new Set([".ics", ".ical", ".icalendar", ".ifb"]);

/** @param named as the command was given it */
export async function* calendarSources(named: string, allowLocal: boolean): AsyncGenerator<CalendarSource> {
  if (named === "-") yield { name: "-", open: () => process.stdin };
  else if (/^[a-z][a-z0-9+.-]{2,}:/i.test(named)) yield await fromAddress(named, allowLocal);
  else yield* fromPath(named);
}

/** What may be shown of an address: a path may be a secret too. */
const hostOf = (address: string): string => {
  const url = diaryAddress(address, true);
  return typeof url === "string" ? "the address given" : url.host;
};

const fromAddress = async (address: string, allowLocal: boolean): Promise<CalendarSource> => {
  const name = hostOf(address);
  const nothingKnown = { etag: null, lastModified: null };
  const fetched = await fetchDiary(address, nothingKnown, allowLocal, Math.floor(Date.now() / 1000));
  if (fetched.kind === "body") return { name, open: () => fetched.body };
  const fault = fetched.kind === "fault" ? fetched.fault : ({ code: "no-answer" } as const);
  return { name, fault: diaryWhy(fault).text };
};

async function* fromPath(path: string): AsyncGenerator<CalendarSource> {
  const found = await stat(path).catch(() => undefined);
  if (!found) yield { name: path, fault: "There is no such file or folder. Check the path." };
  else if (!found.isDirectory()) yield { name: path, open: () => createReadStream(path) };
  else {
    const names = await readdir(path, { recursive: true });
    const calendars = names.filter((name) => EXTENSIONS.has(extname(name).toLowerCase())).sort();
    if (calendars.length === 0) {
      yield {
        name: path,
        fault: `The folder holds no ${[...EXTENSIONS].join(", ")} file. Name a file of it to read that one.`,
      };
    }
    for (const name of calendars) yield { name: join(path, name), open: () => createReadStream(join(path, name)) };
  }
}
