/** A text in pieces that each fit a row. Never cuts a character in two. */
import { PART_MAX_CHARACTERS } from "../bounds.ts";

/** One piece at least, an empty one of an empty text; joined they are the text again. */
export const partsOf = (text: string, most: number = PART_MAX_CHARACTERS): readonly string[] => {
  const parts: string[] = [];
  let from = 0;
  do {
    const end = from + most;
    const isCut = end < text.length && /[\uD800-\uDBFF]/.test(text.charAt(end - 1));
    parts.push(text.slice(from, isCut ? end - 1 : end));
    from = isCut ? end - 1 : end;
  } while (from < text.length);
  return parts;
};
