/**
 * Turns an event into its tombstone. A reader that shows cancelled events as if they were not
 * must still not be told to do what is called off: only the emergency words stay.
 */
import { SUMMARY_MAX } from "../bounds.ts";
import { clip } from "./clip.ts";
import { keepEmergencyWords } from "./emergency.ts";
import type { EventContent } from "./types.ts";

const PREFIX = "Cancelled: ";

/** The same event, called off; a tombstone comes back as it is. */
export const cancelContent = (content: EventContent): EventContent =>
  content.cancelled
    ? content
    : {
        ...content,
        summary: clip(`${PREFIX}${content.summary}`, SUMMARY_MAX),
        description: keepEmergencyWords(content.description),
        cancelled: true,
      };
