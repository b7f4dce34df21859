/**
 * `npm run read`: reads calendars and prints what was understood, what was not, and why. The exit status tells: 0 all of it,
 * 1 not all, 2 a calendar was refused or not found, or the command was not understood.
 */
import { BufferedOutput } from "./BufferedOutput.ts";
import { CALENDAR_ENDINGS, type CalendarSource, calendarSources } from "./calendarSources.ts";
import { fitText, wrapText } from "./fitText.ts";
import { type ReadRequest, readArguments, USAGE } from "./readArguments.ts";
import { type CalendarRead, readCalendar } from "./readCalendar.ts";
import { readWhy } from "./readFault.ts";
import { writeJson } from "./readJson.ts";
import { writeTable } from "./readTable.ts";

const [UNDERSTOOD, NOT_ALL, REFUSED] = [0, 1, 2];
const NAMES_SHOWN = 5;
const WIDTH = 80;

process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  // Whoever reads our output may have seen enough (`| head`): that ends the work and is no failure of it.
  if (error.code === "EPIPE") process.exit(UNDERSTOOD);
  process.stderr.write(`What was read could not be written (${error.code}). Check where the output goes.\n`);
  process.exit(REFUSED);
});

const output = new BufferedOutput(process.stdout);
/** To the other stream, after all that was written so far: a terminal shows both. */
const warn = async (text: string): Promise<void> => {
  await output.flush();
  process.stderr.write(wrapText(text, "", WIDTH));
};

/** Reads one calendar and prints it; its exit status. */
const readOne = async (source: CalendarSource, request: ReadRequest): Promise<number> => {
  if (source.kind === "passed-over") {
    const [count, names] = [source.files.length, source.files.slice(0, NAMES_SHOWN)];
    const more = count > NAMES_SHOWN ? ` and ${count - NAMES_SHOWN} more` : "";
    const what = `${count} ${count === 1 ? "file" : "files"} passed over, with no name in ${CALENDAR_ENDINGS}`;
    await warn(`${fitText(source.name, WIDTH)}: ${what}: ${names.join(", ")}${more}. Name one of them to read it.`);
    return UNDERSTOOD;
  }
  const read: CalendarRead =
    source.kind === "fault"
      ? { refused: readWhy(source.fault), seen: null }
      : await readCalendar(source.open(), source.faultOf);
  const write = request.json ? writeJson : writeTable;
  const isAll = await write(source.name, read, request, output);
  if (read.refused && request.json) await warn(`${fitText(source.name, WIDTH)}: ${read.refused.text}`);
  return read.refused ? REFUSED : isAll ? UNDERSTOOD : NOT_ALL;
};

const readAll = async (request: ReadRequest): Promise<number> => {
  /** How many ended with each status. */
  const ended = [0, 0, 0];
  for (const named of request.sources) {
    for await (const source of calendarSources(named, request.allowLocal)) {
      const status = await readOne(source, request);
      if (source.kind !== "passed-over") ended[status] = (ended[status] ?? 0) + 1;
    }
  }
  const [whole = 0, inPart = 0, refused = 0] = ended;
  const all = whole + inPart + refused;
  if (all > 1 && !request.json) {
    const words = `${all} calendars: ${whole} understood, ${inPart} with something not understood or left aside, ${refused} refused or not found.`;
    await output.write(wrapText(words, "", WIDTH));
  }
  return Math.max(
    UNDERSTOOD,
    ended.findLastIndex((count) => count > 0),
  );
};

const answer = async (args: readonly string[]): Promise<number> => {
  const asked = readArguments(args);
  if (asked.kind === "read") return readAll(asked.request);
  if (asked.kind === "help") await output.write(USAGE);
  else await warn(asked.text);
  return asked.kind === "help" ? UNDERSTOOD : REFUSED;
};

try {
  process.exitCode = await answer(process.argv.slice(2));
  await output.flush();
} catch (error) {
  // A fault of ours, never of a calendar; the status must not say that something was read.
  console.error(error);
  process.exitCode = REFUSED;
}
