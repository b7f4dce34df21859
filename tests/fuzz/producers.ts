/**
 * Small diaries in the style of several kinds of producers, made from a seed: so that there is something to mutate where no
 * calendars of others lie at hand. Every name is invented.
 */
import type { Dice } from "./Dice.ts";

const NAMES = ["Mara Quill", "Zoë O’Brien", "Ann Pell", "Noor", "Łucja Wren", "mara quill"];
const SERVICES = ["Root tint", "Full head colour", "Balayage", "Cut", "Skin test", "Toner"];
const ZONES = ["Europe/London", "America/New_York", "Pacific/Auckland", "Asia/Kathmandu"];

const FAR_ZONES = ["Pacific/Kiritimati", "Etc/GMT+12", "Pacific/Auckland", "America/Los_Angeles"];

const two = (number: number): string => String(number).padStart(2, "0");
const date = (dice: Dice): string => `${2026 + dice.below(2)}${two(1 + dice.below(12))}${two(1 + dice.below(28))}`;
const time = (dice: Dice): string => `T${two(8 + dice.below(10))}${dice.of(["00", "15", "30", "45"])}00`;

type Style = (dice: Dice, number: number) => string;

const zoneOf = (tzid: string): string =>
  `BEGIN:VTIMEZONE\r\nTZID:${tzid}\r\nBEGIN:STANDARD\r\nDTSTART:16011028T020000\r\nRRULE:FREQ=YEARLY;BYDAY=-1SU;BYMONTH=10\r\nTZOFFSETFROM:+0100\r\nTZOFFSETTO:+0000\r\nEND:STANDARD\r\nBEGIN:DAYLIGHT\r\nDTSTART:16010325T010000\r\nRRULE:FREQ=YEARLY;BYDAY=-1SU;BYMONTH=3\r\nTZOFFSETFROM:+0000\r\nTZOFFSETTO:+0100\r\nEND:DAYLIGHT\r\nEND:VTIMEZONE\r\n`;

const STYLES: readonly { readonly head: string; readonly event: Style; readonly newline: string }[] = [
  {
    // A calendar on the web: UTC, attendees, alarms, series with changes.
    head: "PRODID:-//web calendar//EN\r\nX-WR-CALNAME:Chair one\r\nX-WR-TIMEZONE:Europe/London\r\n",
    newline: "\r\n",
    event: (dice, number) => {
      const [day, at, name] = [date(dice), time(dice), dice.of(NAMES)];
      const master = `BEGIN:VEVENT\r\nDTSTART:${day}${at}Z\r\nDTEND:${day}T190000Z\r\nDTSTAMP:20261101T000000Z\r\nUID:${number}@web.example\r\nATTENDEE;CUTYPE=INDIVIDUAL;ROLE=REQ-PARTICIPANT;CN=${name};X-NUM-GUESTS=0:mailto:g${number}@example.com\r\nRRULE:FREQ=WEEKLY;COUNT=6\r\nSEQUENCE:1\r\nSUMMARY:${dice.of(SERVICES)}\r\nBEGIN:VALARM\r\nACTION:DISPLAY\r\nTRIGGER:-P0DT0H30M0S\r\nEND:VALARM\r\nEND:VEVENT\r\n`;
      return `${master}BEGIN:VEVENT\r\nDTSTART:${day}T193000Z\r\nUID:${number}@web.example\r\nRECURRENCE-ID:${day}${at}Z\r\nSUMMARY:moved - ${name}\r\nEND:VEVENT\r\n`;
    },
  },
  {
    // An office suite: Windows names, its own definitions, long folded lines.
    head: `PRODID:-//office suite//EN\r\nMETHOD:PUBLISH\r\n${zoneOf("GMT Standard Time")}`,
    newline: "\r\n",
    event: (dice, number) =>
      `BEGIN:VEVENT\r\nDESCRIPTION:tel: +44 20 7946 0${100 + number}\\n\\n${"a long note, ".repeat(9).slice(0, 70)}\r\n  ${"and more ".repeat(5)}\r\nUID:040000008200E00074C5B7101A82E008${number}\r\nSUMMARY;LANGUAGE=en-gb:${dice.of(NAMES)} - ${dice.of(SERVICES)}\r\nDTSTART;TZID=GMT Standard Time:${date(dice)}${time(dice)}\r\nDURATION:PT${1 + dice.below(3)}H\r\nX-MICROSOFT-CDO-BUSYSTATUS:BUSY\r\nEND:VEVENT\r\n`,
  },
  {
    // A telephone: IANA zones, exclusions, all-day entries.
    head: "PRODID:-//telephone//EN\r\nCALSCALE:GREGORIAN\r\n",
    newline: "\r\n",
    event: (dice, number) => {
      const [day, zone] = [date(dice), dice.of(ZONES)];
      return number % 4 === 0
        ? `BEGIN:VEVENT\r\nUID:${number}-ABCD\r\nDTSTART;VALUE=DATE:${day}\r\nSUMMARY:Closed\r\nEND:VEVENT\r\n`
        : `BEGIN:VEVENT\r\nUID:${number}-ABCD\r\nDTSTART;TZID=${zone}:${day}${time(dice)}\r\nRRULE:FREQ=MONTHLY;BYDAY=2TU;UNTIL=20271231T000000Z\r\nEXDATE;TZID=${zone}:${date(dice)}${time(dice)}\r\nSUMMARY:${dice.of(SERVICES)} - ${dice.of(NAMES)}\r\nSTATUS:${dice.of(["CONFIRMED", "TENTATIVE", "CANCELLED"])}\r\nEND:VEVENT\r\n`;
    },
  },
  {
    // A script: LF, floating times, no UID, extended dates, unfolded text, zones of its own name after their use.
    head: "",
    newline: "\n",
    event: (dice, number) =>
      `BEGIN:VEVENT\r\nDTSTART${dice.of(["", ";TZID=Own/Zone"])}:${date(dice)}${time(dice)}\r\nSUMMARY:${dice.of(SERVICES)} - ${dice.of(NAMES)}\r\nDESCRIPTION:line ${number}\r\nand another\r\nEND:VEVENT\r\n${number === 0 ? zoneOf("Own/Zone") : ""}`,
  },
  {
    // No producer: UIDs that are written as names of other UIDs' entries are, near midnight on the clocks farthest apart.
    head: "",
    newline: "\r\n",
    event: (dice, number) =>
      `BEGIN:VEVENT\r\nUID:${dice.of(["a", "a", "a", "a#2", "a/2026-12-11T10:30:00Z"])}\r\nDTSTART${dice.of([":20261211T103000Z", `;TZID=${dice.of(FAR_ZONES)}:${date(dice)}T${dice.of(["0005", "2355"])}00`])}\r\nSUMMARY:${dice.of(SERVICES)} - ${dice.of(NAMES)}\r\n${number === 0 ? "RRULE:FREQ=DAILY;COUNT=2\r\n" : ""}END:VEVENT\r\n`,
  },
];

/** A diary of one to six events in one of the styles. */
export const makeDiary = (dice: Dice): Buffer => {
  const { head, event, newline } = dice.of(STYLES);
  let body = "";
  for (let number = 0, count = 1 + dice.below(6); number < count; number++) body += event(dice, number);
  const text = `BEGIN:VCALENDAR\r\nVERSION:2.0\r\n${head}${body}END:VCALENDAR\r\n`;
  return Buffer.from(newline === "\n" ? text.replaceAll("\r\n", "\n") : text);
};
