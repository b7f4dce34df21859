/**
 * Turns an event into its tombstone. A reader that shows cancelled events as if they were not
 * must still not be told to do what is called off: of a test that may be on already it keeps what to look for and what to
 * do then, and of everything the emergency words.
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

/** What a tombstone still says: where it was of a test, one may be on the skin. */
const keepCautions = (description: string): string => {
  const shown = [enGB, enUS]
    .map(({ says }) => ({ says, at: description.split("\n\n").find((part) => part.startsWith(says.lookFor)) }))
    .find(({ at }) => at !== undefined);
  const emergency = keepEmergencyWords(description);
  return shown?.at === undefined ? emergency : [shown.says.calledOff, shown.at, emergency].join("\n\n");
};

/** The same event, called off; a tombstone comes back as it is. */
export const cancelContent = (content: EventContent): EventContent =>
  content.cancelled
    ? content
    : {
        ...content,
        summary: clip(`${PREFIX}${withoutDone(content.summary)}`, SUMMARY_MAX),
        description: keepCautions(content.description),
        alarms: [],
        task: { ...content.task, done: false },
        cancelled: true,
      };
