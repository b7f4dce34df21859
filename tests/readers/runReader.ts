/** Runs one reader over a folder of feeds, in a process whose host zone is given. */
import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { ReadFeed } from "./types.ts";

export interface Ran {
  /** Whatever it printed: a warning, since no reader here has anything to say. */
  readonly printed: string;
  readonly feeds: readonly ReadFeed[];
}

/** The Python that Debian's packages belong to; another one may come first in the path. */
const PYTHON = "/usr/bin/python3";
const HERE = import.meta.dirname;

/** Ends with the output of both channels; a status other than nought is said there too. */
export const run = (command: string, options: readonly string[], zone: string, cwd?: string): Promise<string> =>
  new Promise((resolve, reject) => {
    const env = { ...process.env, TZ: zone, LC_ALL: "C.UTF-8", PYTHONDONTWRITEBYTECODE: "1" };
    // The test runner's own options would reach a child by these and make it print.
    for (const name of ["NODE_OPTIONS", "VITEST", "NODE_V8_COVERAGE"]) Reflect.deleteProperty(env, name);
    const child = spawn(command, options, { env, cwd, stdio: ["ignore", "pipe", "pipe"] });
    let printed = "";
    for (const channel of [child.stdout, child.stderr])
      channel.setEncoding("utf8").on("data", (text: string) => (printed += text));
    child.on("error", reject);
    child.on("close", (status) => resolve(status === 0 ? printed : `${printed}\nended with ${status}`));
  });

export const readerPrograms = {
  "ical.js": [process.execPath, join(HERE, "programs/ical-js.ts")],
  "node-ical": [process.execPath, join(HERE, "programs/node-ical.ts")],
  "ts-ics": [process.execPath, join(HERE, "programs/ts-ics.ts")],
  "python-icalendar": [PYTHON, join(HERE, "python/read_icalendar.py")],
  libical: [PYTHON, join(HERE, "python/read_libical.py")],
} as const;
export type ReaderName = keyof typeof readerPrograms;

/** @param more further words of its command line */
export const runReader = async (
  reader: ReaderName,
  zone: string,
  folder: string,
  output: string,
  ...more: readonly string[]
): Promise<Ran> => {
  const [command, program] = readerPrograms[reader];
  const printed = await run(command, [program, folder, output, ...more], zone);
  const lines = readFileSync(output, "utf8").trimEnd().split("\n");
  return { printed, feeds: lines.map((line) => JSON.parse(line) as ReadFeed) };
};
