/**
 * A program of its own for each reader, since a process has one host zone: reads every feed of a folder and writes what it
 * understood, a line a feed, into a file. Whatever appears on its output is the reader's own complaint.
 */
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import type { ReadFeed } from "../types.ts";

export const readFolder = (read: (text: string) => Pick<ReadFeed, "head" | "events">): void => {
  const [folder = "", output = ""] = process.argv.slice(2);
  const lines = readdirSync(folder)
    .filter((name) => name.endsWith(".ics"))
    .map((name): string => {
      const feed = basename(name, ".ics");
      try {
        const answer: ReadFeed = { feed, problems: [], ...read(readFileSync(join(folder, name), "utf8")) };
        return JSON.stringify(answer);
      } catch (error) {
        return JSON.stringify({ feed, problems: [String(error)], head: {}, events: [] } satisfies ReadFeed);
      }
    });
  writeFileSync(output, `${lines.join("\n")}\n`);
};
