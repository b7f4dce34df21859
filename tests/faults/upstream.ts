/** An upstream calendar on this machine that answers well or by a script of faults, and a diary for it to serve. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";

/** Answers one question, however badly. */
export type Play = (response: ServerResponse, request: IncomingMessage) => void;

export interface Upstream {
  readonly origin: string;
  /** How the path is answered from now on. */
  readonly play: (path: string, play: Play) => void;
  /** Questions that have come for the path. */
  readonly asked: (path: string) => number;
  readonly close: () => Promise<void>;
}

/** @param port of this machine; another service's redirects may lead here too */
export const startUpstream = async (port: number): Promise<Upstream> => {
  const plays = new Map<string, Play>();
  const counts = new Map<string, number>();
  const server: Server = createServer((request, response) => {
    const path = (request.url ?? "/").split("?")[0] ?? "/";
    counts.set(path, (counts.get(path) ?? 0) + 1);
    // A sender that is let go has nobody to tell.
    response.on("error", () => {});
    const play = plays.get(path);
    if (play) play(response, request);
    else response.writeHead(404).end();
  });
  server.on("connection", (socket) => socket.on("error", () => {}));
  await new Promise<void>((resolve) => server.listen(port, "127.0.0.1", resolve));
  return {
    origin: `http://127.0.0.1:${port}`,
    play: (path, play) => void plays.set(path, play),
    asked: (path) => counts.get(path) ?? 0,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
};

export const CALENDAR = { "content-type": "text/calendar; charset=utf-8" };

/** The diary, without validators. */
export const well =
  (text: string): Play =>
  (response) =>
    void response.writeHead(200, { ...CALENDAR, "content-length": Buffer.byteLength(text) }).end(text);

/** The diary with a validator, 304 to whoever has it already. */
export const wellTagged =
  (text: string, etag: string): Play =>
  (response, request) => {
    if (request.headers["if-none-match"] === etag) response.writeHead(304, { etag }).end();
    else response.writeHead(200, { ...CALENDAR, etag }).end(text);
  };

/** Six invented clients. */
const PEOPLE = [
  "Mara Quillfeather",
  "Wren Tallis-Moor",
  "Odile Farrow",
  "Ines Brightwater",
  "Tove Larkin",
  "Juno Ashgrove",
];

const stamp = (ms: number): string => new Date(ms).toISOString().replace(/[-:]|\.\d+/g, "");

/**
 * About 60 KB: colour bookings of six people from 40 days after `nowMs` on, so far that no deadline passes while tests run,
 * and cuts in between.
 */
export const diaryOfSixtyKilobytes = (nowMs: number): string => {
  const day = 86_400_000;
  const first = Math.floor(nowMs / day) * day + 40 * day + 10 * 3_600_000;
  const entries = Array.from({ length: 210 }, (_, index) => {
    const person = PEOPLE[index % PEOPLE.length] as string;
    const isColour = index < PEOPLE.length * 2;
    return [
      "BEGIN:VEVENT",
      `UID:entry-${index}@quillfen.example`,
      "DTSTAMP:20260101T000000Z",
      `DTSTART:${stamp(first + (index % 40) * day + (index % 7) * 3_600_000)}`,
      `DTEND:${stamp(first + (index % 40) * day + (index % 7) * 3_600_000 + 5_400_000)}`,
      `SUMMARY:${isColour ? "Root tint" : "Cut and blow dry"}`,
      `ATTENDEE;CN="${person}":mailto:${person.split(" ")[0]?.toLowerCase()}@example.com`,
      `DESCRIPTION:Booked at the desk, entry ${index}: towels, coffee, and the chair by the window`,
      "END:VEVENT",
    ].join("\r\n");
  });
  return [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//Quillfen//Appointment book//EN",
    ...entries,
    "END:VCALENDAR",
    "",
  ].join("\r\n");
};
