/**
 * The words of a block's events, and the only door to node-ical. It is given one block at a time under names and times of
 * our own, so that its guesses about zones, its keys and its failures never matter: what it cannot read costs that one
 * entry. Never takes a time from it.
 */
import { sync } from "node-ical";
import * as z from "zod";
import { ATTENDEES_MAX, DESCRIPTION_READ_MAX, SUMMARY_READ_MAX } from "../bounds.ts";
import type { ContentLine } from "./parseContentLine.ts";
import type { Person } from "./types.ts";

export interface EventWords {
  readonly summary: string;
  readonly description: string;
  readonly location: string;
  readonly attendees: readonly Person[];
  readonly cancelled: boolean;
}

/** A value with parameters comes as `{params, val}`, a repeated one as a list of either. */
const one = z.union([z.string(), z.number().transform(String), z.looseObject({ val: z.unknown() })]);
const several = z.union([one, z.array(one)]).optional();
const parsedEvent = z.looseObject({
  type: z.literal("VEVENT"),
  summary: several,
  description: several,
  location: several,
  status: several,
  attendee: several,
});
type Value = z.infer<typeof several>;

const PASSED_ON = new Set(["SUMMARY", "DESCRIPTION", "LOCATION", "STATUS", "ATTENDEE"]);
const ATTENDEE_PARAMS = ["CN", "CUTYPE", "EMAIL"];
const NEUTRAL_TIME = "DTSTART:19700101T000000Z";

/**
 * The words of each event, in the order given; null where they cannot be read.
 * @param events the content lines of each
 */
export const parseEvents = (events: readonly (readonly ContentLine[])[]): readonly (EventWords | null)[] => {
  const texts = events.map(rewrite);
  return readAll(texts) ?? texts.map((text) => readAll([text])?.[0] ?? null);
};

/** The words of every event, or undefined where one of them made the parser fail or find another number of events. */
const readAll = (texts: readonly string[]): (EventWords | null)[] | undefined => {
  const body = texts.map((text, index) => `BEGIN:VEVENT\r\nUID:entry-${index}\r\n${text}\r\nEND:VEVENT\r\n`).join("");
  let parsed: Readonly<Record<string, unknown>>;
  try {
    parsed = sync.parseICS(`BEGIN:VCALENDAR\r\n${body}END:VCALENDAR\r\n`);
  } catch {
    return undefined;
  }
  if (Object.values(parsed).filter(isEvent).length !== texts.length) return undefined;
  return texts.map((_, index) => {
    const event = parsedEvent.safeParse(parsed[`entry-${index}`]);
    return event.success ? toWords(event.data) : null;
  });
};

const isEvent = (value: unknown): boolean =>
  typeof value === "object" && value !== null && "type" in value && value.type === "VEVENT";

/** The lines that are passed on, with no parameter but the few that are read. */
const rewrite = (lines: readonly ContentLine[]): string => {
  let attendees = 0;
  const kept = lines
    .filter(({ name }) => PASSED_ON.has(name) && (name !== "ATTENDEE" || attendees++ < ATTENDEES_MAX))
    .map((line) => `${line.name}${paramsOf(line)}:${line.value}`);
  return [NEUTRAL_TIME, ...kept].join("\r\n");
};

const paramsOf = (line: ContentLine): string => {
  if (line.name !== "ATTENDEE") return "";
  return ATTENDEE_PARAMS.filter((name) => line.params.has(name))
    .map((name) => `;${name}="${(line.params.get(name) as string).replaceAll('"', "")}"`)
    .join("");
};

const textOf = (value: Value): string => {
  const [first] = Array.isArray(value) ? value : [value];
  const text = typeof first === "object" ? first.val : first;
  return typeof text === "string" ? text.trim() : "";
};

const toWords = (event: z.infer<typeof parsedEvent>): EventWords => ({
  summary: textOf(event.summary).slice(0, SUMMARY_READ_MAX),
  description: textOf(event.description).slice(0, DESCRIPTION_READ_MAX),
  location: textOf(event.location),
  attendees: joinPeople((Array.isArray(event.attendee) ? event.attendee : [event.attendee]).map(toPerson)),
  cancelled: textOf(event.status).toUpperCase() === "CANCELLED",
});

const attendeeParams = z.looseObject({
  CN: z.string().optional(),
  CUTYPE: z.string().optional(),
  EMAIL: z.string().optional(),
});

/** One ATTENDEE; null for a room, a group, and for what carries neither name nor address. */
const toPerson = (value: z.infer<typeof one> | undefined): Person | null => {
  if (value === undefined) return null;
  const params = attendeeParams.safeParse(typeof value === "object" ? value["params"] : {});
  const { CN, CUTYPE, EMAIL } = params.success ? params.data : {};
  if (CUTYPE !== undefined && !/^(?:INDIVIDUAL|UNKNOWN)$/i.test(CUTYPE.trim())) return null;
  const address = textOf(value);
  const email = /^mailto:/i.test(address) ? decode(address.slice(7)) : (EMAIL?.trim() ?? null);
  const phone = /^tel:/i.test(address) ? decode(address.slice(4)) : null;
  const name = CN?.replace(/\s+/g, " ").trim() ?? "";
  // Many exporters repeat the address where a name belongs.
  const shown = name.includes("@") || name.toLowerCase() === phone ? "" : name;
  return shown === "" && !email && !phone ? null : { name: shown, email: email || null, phone: phone || null };
};

const decode = (address: string): string => {
  const bare = (address.split("?")[0] as string).trim();
  try {
    return decodeURIComponent(bare).trim();
  } catch {
    return bare;
  }
};

/** One person who stands there twice, once with an address and once with a telephone, is one. */
const joinPeople = (people: readonly (Person | null)[]): Person[] => {
  const joined: Person[] = [];
  for (const person of people) {
    if (!person) continue;
    const at = joined.findIndex(
      (other) =>
        other.name !== "" &&
        other.name === person.name &&
        (other.email === null || person.email === null || other.email === person.email) &&
        (other.phone === null || person.phone === null || other.phone === person.phone),
    );
    const other = joined[at];
    if (other)
      joined[at] = { name: other.name, email: other.email ?? person.email, phone: other.phone ?? person.phone };
    else joined.push(person);
  }
  return joined;
};
