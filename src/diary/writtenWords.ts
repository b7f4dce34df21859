/**
 * What one stored VEVENT says in words, whole and as the file wrote it, whether or not it has ever been read as an entry: for the
 * person it speaks of. What an entry is sorted by comes from parseEvents.ts, which cuts.
 */
import { splitEvent } from "./eventText.ts";
import { parseContentLine } from "./parseContentLine.ts";

export interface WrittenWords {
  readonly summary: string;
  readonly description: string;
  readonly location: string;
}

/** A TEXT value: line ends and marks are escaped (RFC 5545 §3.3.11). */
const readText = (value: string): string =>
  value.replace(/\\([nN\\;,])/g, (_, mark: string) => (mark === "n" || mark === "N" ? "\n" : mark)).trim();

/** @param event one of a block's `events` */
export const writtenWords = (event: string): WrittenWords => {
  const lines = splitEvent(event).lines.map(parseContentLine);
  const textOf = (wanted: string): string =>
    lines
      .filter(({ name }) => name === wanted)
      .map(({ value }) => readText(value))
      .join("\n");
  return { summary: textOf("SUMMARY"), description: textOf("DESCRIPTION"), location: textOf("LOCATION") };
};
