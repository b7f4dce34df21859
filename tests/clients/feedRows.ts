/** A feed's text as rows of what a calendar must keep of it. Times are reckoned by ICU, sharing nothing with the service. */
import { startByIcu } from "../corpus/startByIcu.ts";

export interface Row {
  readonly uid: string;
  /** `2026-12-07T09:30:00Z`, or `2026-12-07` for an all-day event. */
  readonly start: string;
  readonly end: string;
  readonly title: string;
  readonly status: string;
}

const unescape = (text: string): string =>
  text.replaceAll(/\\([\\;,nN])/g, (_, letter: string) => (/n/i.test(letter) ? "\n" : letter));

/** @param line `DTSTART;TZID=Europe/London:20261207T093000` */
const timeOf = (line: string): string => {
  const [, parameters = "", digits = ""] = /^\w+((?:;[^:]*)?):(\S+)$/.exec(line) ?? [];
  const zone = /TZID=([^;:]+)/.exec(parameters)?.[1] ?? "UTC";
  if (/^\d{8}$/.test(digits)) return `${digits.slice(0, 4)}-${digits.slice(4, 6)}-${digits.slice(6)}`;
  return startByIcu(digits.replace(/Z$/, ""), zone) ?? `no such moment: ${line}`;
};

export const byUid = (rows: readonly Row[]): readonly Row[] => rows.toSorted((a, b) => (a.uid < b.uid ? -1 : 1));

export const feedRows = (text: string): readonly Row[] => {
  const events = text
    .replaceAll("\r\n ", "")
    .split("BEGIN:VEVENT\r\n")
    .slice(1)
    .map((event) => event.split("\r\n"));
  return byUid(
    events.map((lines) => {
      const line = (name: string): string => lines.find((each) => new RegExp(`^${name}[;:]`).test(each)) ?? "";
      const value = (name: string): string => line(name).slice(name.length + 1);
      return {
        uid: value("UID"),
        start: timeOf(line("DTSTART")),
        end: timeOf(line("DTEND")),
        title: unescape(value("SUMMARY")),
        status: value("STATUS"),
      };
    }),
  );
};
