/** Reads fields of a form against what was shown of the settings: what comes back as it was shown is what is stored. */
import { isAsShown, type Kind } from "./fieldKinds.ts";

/** What a form holds, as a browser sends it: names and texts in order. */
export type Typed = URLSearchParams;

/** Puts a value's texts under a name; of ticks first an empty one, which says that they were asked for. */
export const showField = (into: Typed, name: string, kind: Kind, value: unknown, isTicks = false): void => {
  if (isTicks) into.append(name, "");
  for (const text of kind.show(value)) into.append(name, text);
};

/**
 * The value of a field.
 * @param stored what the form was filled with; it stands where the field was not sent, or came back untouched
 */
export const readField = (typed: Typed, name: string, kind: Kind, stored: unknown): unknown => {
  if (!typed.has(name)) return stored;
  const sent = typed.getAll(name);
  const wasShown = stored === undefined ? undefined : kind.show(stored);
  return wasShown !== undefined && isAsShown(sent, wasShown, kind) ? stored : kind.read(sent);
};

/** Whether any field under a name was sent. */
export const hasAny = (typed: Typed, prefix: string): boolean =>
  [...typed.keys()].some((name) => name.startsWith(prefix));
