/** The faults an upstream can have, each as a script of one answer, with the reason by which the salon must name it. */
import { gzipSync } from "node:zlib";
import { CALENDAR, type Play } from "./upstream.ts";

export interface FaultScript {
  readonly name: string;
  readonly play: Play;
  /** Codes of the report's reason that are right for it. */
  readonly codes: readonly string[];
}

const BAD = ["answered-badly"];
const BROKEN = ["no-answer"];
const NO_CALENDAR = ["diary-not-calendar"];

const status = (
  code: number,
  body: string | null = "out of order",
  headers: Record<string, string> = {},
): FaultScript => ({
  name: `status ${code}`,
  play: (response) => void response.writeHead(code, headers).end(body ?? undefined),
  codes: BAD,
});

const body = (
  name: string,
  text: string | Buffer,
  headers: Record<string, string>,
  codes: readonly string[],
): FaultScript => ({
  name,
  play: (response) => void response.writeHead(200, headers).end(text),
  codes,
});

/** Octets written to the socket itself, past what a server would allow; then, where asked, the connection is reset. */
const raw = (name: string, octets: string | Buffer, codes: readonly string[], isReset = false): FaultScript => ({
  name,
  play: (response) => {
    const { socket } = response;
    if (octets.length === 0) socket?.resetAndDestroy();
    else socket?.write(octets, () => (isReset ? setTimeout(() => socket.resetAndDestroy(), 20) : socket.end()));
  },
  codes,
});

const LOGIN = "<!DOCTYPE html>\n<html><head><title>Sign in</title></head><body>Session over</body></html>\n";
const head = (more: string): string => `HTTP/1.1 200 OK\r\nContent-Type: text/calendar\r\n${more}\r\n`;

/** Faults that are over at once. @param origin of the upstream */
export const quickFaults = (text: string, origin: string): readonly FaultScript[] => {
  const octets = Buffer.from(text);
  const half = octets.subarray(0, octets.length / 2);
  const zipped = gzipSync(octets);
  const gzip = { ...CALENDAR, "content-encoding": "gzip" };
  return [
    status(500),
    { ...status(500, text), name: "status 500 with the diary" },
    status(502),
    status(503),
    status(401),
    status(404),
    status(204, null),
    {
      ...status(206, text.slice(0, 20_000), { "content-range": `bytes 0-19999/${octets.length}` }),
      name: "206, a part",
    },
    { ...status(206, text), name: "206, and all of it" },
    { ...status(304, null), name: "304 unasked" },
    { ...status(302, null), name: "302 that says not where to" },
    { ...status(300, text, { location: `${origin}/elsewhere` }), name: "300, a choice" },
    {
      name: "a redirect to itself",
      play: (response, request) => void response.writeHead(302, { location: request.url ?? "/" }).end(),
      codes: ["too-many-redirects"],
    },
    {
      name: "a redirect to a closed port",
      play: (response) => void response.writeHead(302, { location: "http://127.0.0.1:1/a.ics" }).end(),
      codes: BROKEN,
    },
    {
      name: "a redirect to another kind of address",
      play: (response) => void response.writeHead(302, { location: "ftp://127.0.0.1/a.ics" }).end(),
      codes: ["address-refused"],
    },
    body("a page to sign in", LOGIN, { "content-type": "text/html" }, NO_CALENDAR),
    body("a page to sign in, called a calendar", LOGIN, CALENDAR, NO_CALENDAR),
    body("JSON", '{"error":"quota"}', { "content-type": "application/json" }, NO_CALENDAR),
    body("nothing at all", "", CALENDAR, NO_CALENDAR),
    body("blank lines", "\r\n\r\n\r\n", CALENDAR, NO_CALENDAR),
    body(
      "octets without sense",
      Buffer.from(Array.from({ length: 60_000 }, (_, index) => (index * 7_919) % 256)),
      CALENDAR,
      NO_CALENDAR,
    ),
    body("plain text called gzip", text, gzip, BROKEN),
    body("gzip broken off", zipped.subarray(0, zipped.length / 2), gzip, [...BROKEN, "diary-cut-off"]),
    body(
      "gzip with a turned octet",
      Buffer.concat([
        zipped.subarray(0, 2_000),
        Buffer.from([zipped[2_000] ? zipped[2_000] ^ 0xff : 1]),
        zipped.subarray(2_001),
      ]),
      gzip,
      [...BROKEN, "diary-cut-off", "diary-not-calendar"],
    ),
    body("gzip that is not said to be", zipped, CALENDAR, NO_CALENDAR),
    body("half a diary, whole as an answer", half, CALENDAR, ["diary-cut-off"]),
    raw("a reset before any answer", "", BROKEN),
    raw(
      "a reset amid the body",
      Buffer.concat([Buffer.from(head(`Content-Length: ${octets.length}\r\n`)), half]),
      BROKEN,
      true,
    ),
    raw(
      "an end amid the body",
      Buffer.concat([Buffer.from(head(`Content-Length: ${octets.length}\r\n`)), half]),
      BROKEN,
    ),
    raw(
      "an end amid the chunks",
      Buffer.concat([Buffer.from(`${head("Transfer-Encoding: chunked\r\n")}${octets.length.toString(16)}\r\n`), half]),
      BROKEN,
    ),
    raw("an end amid a body of no length", Buffer.concat([Buffer.from(head("Connection: close\r\n")), half]), [
      "diary-cut-off",
    ]),
    raw(
      "a length that is too long",
      Buffer.concat([Buffer.from(head(`Content-Length: ${octets.length + 500}\r\n`)), octets]),
      BROKEN,
    ),
    raw("a length that is too short", Buffer.concat([Buffer.from(head("Content-Length: 30000\r\n")), octets]), [
      "diary-cut-off",
      ...BROKEN,
    ]),
    raw("a length that is no number", Buffer.concat([Buffer.from(head("Content-Length: long\r\n")), octets]), BROKEN),
    raw("chunks that are none", `${head("Transfer-Encoding: chunked\r\n")}zz\r\nBEGIN:VCALENDAR\r\n`, BROKEN),
    raw("an answer that is not HTTP", "220 mail.example ESMTP ready\r\n", BROKEN),
  ];
};

/** The diary cut at each of these octets, as a whole answer of its own length. */
export const truncations = (text: string, every: number): readonly FaultScript[] => {
  const octets = Buffer.from(text);
  return Array.from({ length: Math.ceil(octets.length / every) }, (_, index): FaultScript => {
    const part = octets.subarray(0, index * every);
    return body(`the first ${part.length} octets`, part, { ...CALENDAR, "content-length": String(part.length) }, [
      "diary-cut-off",
      ...NO_CALENDAR,
    ]);
  });
};

/** Faults that take as long as the salon waits for an answer. @param chain an address of the upstream to send on to, step by step */
export const slowFaults = (text: string): readonly FaultScript[] => [
  { name: "no answer", play: () => {}, codes: BROKEN },
  {
    name: "an octet a second",
    play: (response) => {
      response.writeHead(200, CALENDAR);
      let sent = 0;
      const drip = setInterval(() => response.write(text.slice(sent, ++sent)), 1_000);
      response.on("close", () => clearInterval(drip));
    },
    codes: BROKEN,
  },
  {
    name: "all but the end, and then silence",
    play: (response) => void response.writeHead(200, CALENDAR).write(text.slice(0, -20)),
    codes: BROKEN,
  },
  {
    name: "redirects that take five seconds each",
    play: (response, request) => {
      const later = setTimeout(() => response.writeHead(302, { location: request.url ?? "/" }).end(), 5_000);
      response.on("close", () => clearTimeout(later));
    },
    codes: BROKEN,
  },
];
