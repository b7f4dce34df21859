/**
 * Rows of expected.tsv that the bytes of their own file refute, each with the start that the bytes give and why. Data only.
 * `zone` names the IANA zone in which ICU, not our reader, then works the start out.
 */

export interface ShownWrong {
  readonly file: string;
  readonly uid: string;
  /** The line as the file has it. */
  readonly line: string;
  readonly is: { readonly start: string } | { readonly zone: string };
  readonly why: string;
}

export const SHOWN_WRONG: readonly ShownWrong[] = [
  {
    file: "biweekly--26d0f4-pr63.ics",
    uid: "pdhtelaeqstgnbr9f0hrdioij0@google.com",
    line: "DTSTART;TZID=/America/New_York:20161219T090000",
    is: { zone: "America/New_York" },
    why: "the slash says that the name is registered globally (RFC 5545 §3.2.19), and behind it stands an IANA name",
  },
  {
    file: "node-ical--22874c-windows-quoted-tz-rrule.ics",
    uid: "0000001",
    line: 'DTSTART;TZID="(UTC-05:00) Eastern Time (US and Canada)":20150706T120000',
    is: { zone: "America/New_York" },
    why: "what Windows shows for Eastern Standard Time, which is New York (CLDR windowsZones, territory 001)",
  },
  {
    file: "python-recurring-ical-events--4952b8-issue_107_omitting_last_event.ics",
    uid: "",
    line: "DTSTART;TZID=Pacific Standard Time:20230105T100000",
    is: { start: "2023-01-05T18:00:00Z" },
    why: "the file defines that zone: -0800 from the first Sunday of November to the second of March",
  },
  {
    file: "icalendar--2a0c38-timezone_rdate.ics",
    uid: "123",
    line: "DTSTART;TZID=posix/Europe/Vaduz:20120213T100000",
    is: { start: "2012-02-13T09:00:00Z" },
    why: "the file defines that zone: +0100 from the last Sunday of October to the last of March; the first reader took UTC",
  },
  {
    file: "khal--096119-part1.ics",
    uid: "abcde",
    line: "DTSTART;TZID=Europe_Berlin:20140409T093000",
    is: { start: "2014-04-09T07:30:00Z" },
    why: "the file defines that zone: +0200 from 30 March to 26 October 2014; both readers took UTC",
  },
  {
    file: "libical--129720-2445.ics",
    uid: "19970901T130000Z-123403@host.com",
    line: "DTSTART:19971102",
    is: { start: "D:1997-11-02" },
    why: "eight digits are a date, VALUE=DATE or not; the second reader refused them and wrote the line anew",
  },
  {
    file: "libical--3b6442-rfc2445.ics",
    uid: "19970901T130000Z-123403@host.com",
    line: "DTSTART:19971102",
    is: { start: "D:1997-11-02" },
    why: "eight digits are a date, VALUE=DATE or not; the second reader refused them and wrote the line anew",
  },
];
