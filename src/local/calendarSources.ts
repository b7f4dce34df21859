/** Files, folders, addresses and piped text → named streams of octets. Never shows an address's credentials or its path. */
import { createReadStream } from "node:fs";
import { readdir, stat } from "node:fs/promises";
import { join, relative, resolve } from "node:path";
import { diaryAddress } from "../salon/address.ts";
import { fetchDiary } from "../salon/fetchDiary.ts";
import type { ReadFault } from "./readFault.ts";

export type CalendarSource =
  | {
      readonly kind: "calendar";
      readonly name: string;
      readonly open: () => AsyncIterable<Uint8Array>;
      /** What an error of the stream means. */
      readonly faultOf: (error: unknown) => ReadFault;
    }
  | { readonly kind: "fault"; readonly name: string; readonly fault: ReadFault }
  /** Files of a folder that are not looked at. */
  | { readonly kind: "passed-over"; readonly name: string; readonly files: readonly string[] };

/** What calendar programs call such files: RFC 5545 §8.1 has .ics and .ifb. */
const CALENDAR_NAME = /\.(?:ics|ical|icalendar|ifb)$/i;
export const CALENDAR_ENDINGS = ".ics, .ical, .icalendar or .ifb";

/** npm runs a script in the project's folder; a path is meant from where it was typed. */
const STARTED_IN =
  process.env["npm_lifecycle_event"] === "read" ? (process.env["INIT_CWD"] ?? process.cwd()) : process.cwd();

const notReadable = (error: unknown): ReadFault => {
  const code = error instanceof Error && "code" in error ? String(error.code) : "the reading failed";
  return code === "ENOENT" ? { code: "not-found" } : { code: "not-readable", cause: code };
};

/** @param named as the command was given it */
export async function* calendarSources(named: string, allowLocal: boolean): AsyncGenerator<CalendarSource> {
  if (named === "-") yield { kind: "calendar", name: "-", open: () => process.stdin, faultOf: notReadable };
  else if (/^(?:https?|webcals?):/i.test(named) || /^[a-z][a-z0-9+.-]+:\/\//i.test(named)) {
    yield await fromAddress(named, allowLocal);
  } else yield* fromPath(named);
}

/** What may be shown of an address: its path may be a secret too. */
const originOf = (address: string): string => {
  const url = diaryAddress(address, true);
  return typeof url === "string" ? "the address given" : `${url.origin}/…`;
};

const fromAddress = async (address: string, allowLocal: boolean): Promise<CalendarSource> => {
  const name = originOf(address);
  const fetched = await fetchDiary(
    address,
    { etag: null, lastModified: null },
    allowLocal,
    Math.floor(Date.now() / 1000),
  );
  const noAnswer: ReadFault = { code: "no-answer" };
  if (fetched.kind === "body") return { kind: "calendar", name, open: () => fetched.body, faultOf: () => noAnswer };
  return { kind: "fault", name, fault: fetched.kind === "fault" ? fetched.fault : noAnswer };
};

const fromFile = (name: string, path: string): CalendarSource => ({
  kind: "calendar",
  name,
  open: () => createReadStream(path),
  faultOf: notReadable,
});

async function* fromPath(named: string): AsyncGenerator<CalendarSource> {
  const path = resolve(STARTED_IN, named);
  try {
    if (!(await stat(path)).isDirectory()) {
      yield fromFile(named, path);
      return;
    }
    const files = await filesBelow(path);
    const calendars = files.filter((file) => CALENDAR_NAME.test(file));
    if (calendars.length === 0) {
      yield { kind: "fault", name: named, fault: { code: "no-calendar-in-folder", wanted: CALENDAR_ENDINGS } };
    }
    for (const file of calendars) yield fromFile(join(named, file), join(path, file));
    const others = files.filter((file) => !CALENDAR_NAME.test(file));
    if (others.length > 0) yield { kind: "passed-over", name: named, files: others };
  } catch (error) {
    yield { kind: "fault", name: named, fault: notReadable(error) };
  }
}

/** Every file in a folder and below, by its path from there, in an order that no machine's language changes. */
const filesBelow = async (folder: string): Promise<string[]> => {
  const found = await readdir(folder, { recursive: true, withFileTypes: true });
  return found
    .filter((each) => !each.isDirectory())
    .map((each) => relative(folder, join(each.parentPath, each.name)))
    .sort();
};
