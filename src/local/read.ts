/**
 * `npm run read`: reads calendars and prints what was understood, what was not, and why. The exit status tells: 0 all of it,
 * 1 not all, 2 a file was refused or not found, or the command was not understood.
 */
import { calendarSources } from "./calendarSources.ts";
import { readArguments, type ReadRequest, USAGE } from "./readArguments.ts";
import { type BlockList, type CalendarRead, listBlock, readCalendar } from "./readCalendar.ts";
import { writeJson } from "./readJson.ts";
import { writeTable } from "./readTable.ts";

const [UNDERSTOOD, NOT_ALL, REFUSED] = [0, 1, 2];

// Whoever reads our output may have seen enough (`| head`): that ends the work and is no failure of it.
process.stdout.on("error", () => process.exit(UNDERSTOOD));

const write = (text: string): Promise<void> =>
  new Promise((resolve) => {
    if (process.stdout.write(text)) resolve();
    else process.stdout.once("drain", resolve);
  });

function* listsOf({ seen }: CalendarRead, { zone, window }: ReadRequest): Generator<BlockList> {
  for (const block of seen?.blocks ?? []) yield listBlock(block, zone, window);
}

/** Reads one source and prints it; its exit status. */
const readOne = async (name: string, octets: AsyncIterable<Uint8Array>, request: ReadRequest): Promise<number> => {
  let read: CalendarRead;
  try {
    read = await readCalendar(octets);
  } catch (error) {
    const code = error instanceof Error && "code" in error ? ` (${String(error.code)})` : "";
    return refuse(name, `It could not be read to its end${code}. Check that it may be read.`, request);
  }
  const { zone, zoneGiven, window, json } = request;
  const hasWindow = window !== null;
  const all = json
    ? await writeJson(name, read, listsOf(read, request), hasWindow, write)
    : await writeTable(name, read, listsOf(read, request), { zone, zoneGiven, hasWindow }, write);
  return read.refused ? REFUSED : all ? UNDERSTOOD : NOT_ALL;
};

const refuse = async (name: string, text: string, { json }: ReadRequest): Promise<number> => {
  const nothing = { raw: 0, entries: [], skipped: [] };
  if (json)
    await write(`${JSON.stringify({ file: name, status: "refused", reason: "not-found", text, ...nothing })}\n`);
  else process.stderr.write(`${name}: ${text}\n`);
  return REFUSED;
};

const readAll = async (request: ReadRequest): Promise<number> => {
  let status = UNDERSTOOD;
  for (const named of request.sources) {
    for await (const source of calendarSources(named, request.allowLocal)) {
      const one =
        "fault" in source
          ? await refuse(source.name, source.fault, request)
          : await readOne(source.name, source.open(), request);
      status = Math.max(status, one);
    }
  }
  return status;
};

const asked = readArguments(process.argv.slice(2));
if (asked.kind === "read") process.exitCode = await readAll(asked.request);
else if (asked.kind === "help") await write(USAGE);
else {
  process.stderr.write(`${asked.text}\n`);
  process.exitCode = REFUSED;
}
