/** Rows gathered so that few statements write many. Pure. */
import { PART_MAX_CHARACTERS } from "../bounds.ts";

/** Items as JSON arrays for json_each, each small enough for one bound value. */
export function* batchesOf(items: Iterable<unknown>): Generator<string> {
  let batch: string[] = [];
  let length = 0;
  for (const item of items) {
    const text = JSON.stringify(item);
    if (length + text.length > PART_MAX_CHARACTERS && batch.length > 0) {
      yield `[${batch.join(",")}]`;
      batch = [];
      length = 0;
    }
    batch.push(text);
    length += text.length + 1;
  }
  if (batch.length > 0) yield `[${batch.join(",")}]`;
}
