/**
 * Turns an event into its tombstone. A reader that shows cancelled events as if they were not
 * must still not be told to do what is called off: only the emergency words stay.
 */
import { SUMMARY_MAX } from "../bounds.ts";
import { clip } from "./clip.ts";
import { keepEmergencyWords } from "./emergency.ts";
import { enGB } from "./language/en-GB.ts";
import { enUS } from "./language/en-US.ts";
import type { EventContent } from "./types.ts";

const PREFIX = "Cancelled: ";

/** "Cancelled: Done: …" would say two things at once. */
const DONE = [enGB, enUS].map(({ says }) => says.done.replace("{summary}", ""));

const withoutDone = (summary: string): string =>
  DONE.reduce((text, done) => (text.startsWith(done) ? text.slice(done.length) : text), summary);

/** The same event, called off; a tombstone comes back as it is. */
export const cancelContent = (content: EventContent): EventContent =>
  content.cancelled
    ? content
    : {
        ...content,
        summary: clip(`${PREFIX}${withoutDone(content.summary)}`, SUMMARY_MAX),
        description: keepEmergencyWords(content.description),
        alarms: [],
        task: { ...content.task, done: false },
        cancelled: true,
      };
