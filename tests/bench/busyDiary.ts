/**
 * A salon's diary of any size as an ordinary calendar program exports it, made from a number: what diary-cost.ts reads.
 * Never asks a clock.
 */
import { DAY_SECONDS, formatDay, HOUR, type Instant } from "../../src/time/instant.ts";

const ZONE_TEXT = `BEGIN:VTIMEZONE
TZID:Europe/London
BEGIN:DAYLIGHT
TZOFFSETFROM:+0000
TZOFFSETTO:+0100
TZNAME:BST
DTSTART:19700329T010000
RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=-1SU
END:DAYLIGHT
BEGIN:STANDARD
TZOFFSETFROM:+0100
TZOFFSETTO:+0000
TZNAME:GMT
DTSTART:19701025T020000
RRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=-1SU
END:STANDARD
END:VTIMEZONE
`;

const two = (value: number): string => String(value).padStart(2, "0");

/** `20261211T103000` of a wall time. */
const basic = (wall: Instant): string => {
  const seconds = wall - Math.floor(wall / DAY_SECONDS) * DAY_SECONDS;
  const day = formatDay(Math.floor(wall / DAY_SECONDS)).replaceAll("-", "");
  return `${day}T${two(Math.floor(seconds / HOUR))}${two(Math.floor(seconds / 60) % 60)}00`;
};

const GIVEN = ["Mara", "Idris", "Oona", "Petra", "Samir", "Willa", "Tomos", "Yusra", "Greta", "Anselm"];
const FAMILY = ["Quillfeather", "Ashdown", "Brightwell", "Calloway", "Dunmore", "Everly", "Farrow", "Galbraith"];

export interface DiaryPlan {
  readonly entries: number;
  /** First and last wall day, spread evenly. */
  readonly from: Instant;
  readonly to: Instant;
  /** Written into every DTSTAMP: an export renews it each time. */
  readonly stampedAt: Instant;
  /** Leaves out what an export need not say: about 250 octets an entry in place of 400. */
  readonly brief: boolean;
  /** Entry that begins a quarter of an hour later than its number says; null: none. */
  readonly moved: number | null;
}

/** Each client comes every few weeks; one entry in `clients` is a client of her own. */
const clientOf = (index: number): { readonly name: string; readonly email: string } => {
  const name = `${GIVEN[index % GIVEN.length]} ${FAMILY[Math.floor(index / GIVEN.length) % FAMILY.length]}`;
  return { name: `${name} ${index}`, email: `client${index}@example.com` };
};

/** One entry's text. */
const entryText = (index: number, { entries, from, to, stampedAt, brief, moved }: DiaryPlan): string => {
  const day = from + Math.floor((index * (to - from)) / entries / DAY_SECONDS) * DAY_SECONDS;
  const wall = day + 9 * HOUR + ((index * 7) % 32) * 900 + (index === moved ? 900 : 0);
  const { name, email } = clientOf(index % Math.max(1, Math.ceil(entries / 6)));
  const lines = [
    "BEGIN:VEVENT",
    `UID:${index}-a7c1f3@quillfen.example`,
    `DTSTAMP:${basic(stampedAt)}Z`,
    ...(brief ? [] : [`CREATED:${basic(day - 40 * DAY_SECONDS)}Z`, `LAST-MODIFIED:${basic(day - 40 * DAY_SECONDS)}Z`]),
    `DTSTART;TZID=Europe/London:${basic(wall)}`,
    brief ? "DURATION:PT2H" : `DTEND;TZID=Europe/London:${basic(wall + 2 * HOUR)}`,
    "SUMMARY:Root tint and finish",
    `ATTENDEE;CN="${name}"${brief ? "" : ";ROLE=REQ-PARTICIPANT"}:mailto:${email}`,
    ...(brief ? [] : ["DESCRIPTION:Booked on the telephone.", "STATUS:CONFIRMED"]),
    "END:VEVENT",
  ];
  return `${lines.join("\n")}\n`;
};

/** The whole diary in pieces of a thousand entries, with CRLF line ends. */
export function* diaryPieces(plan: DiaryPlan): Generator<string> {
  const head = `BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//Quillfen//Diary//EN\nX-WR-CALNAME:Chair one\n${ZONE_TEXT}`;
  yield head.replaceAll("\n", "\r\n");
  for (let index = 0; index < plan.entries; index += 1_000) {
    let piece = "";
    for (let each = index; each < Math.min(index + 1_000, plan.entries); each++) piece += entryText(each, plan);
    yield piece.replaceAll("\n", "\r\n");
  }
  yield "END:VCALENDAR\r\n";
}

export const diaryText = (plan: DiaryPlan): string => [...diaryPieces(plan)].join("");
