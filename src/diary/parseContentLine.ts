/**
 * One unfolded content line (RFC 5545 §3.1) in its parts. Forgives what exporters get wrong: empty parameters, doubled
 * semicolons, parameters without a value, colons in an unquoted TZID. Never judges what the value means.
 */

export interface ContentLine {
  /** In capitals. */
  readonly name: string;
  /** Names in capitals, quotes taken off; of a doubled parameter the first; of a TZID both, which is a name that nobody knows. */
  readonly params: ReadonlyMap<string, string>;
  readonly value: string;
}

/** Where an unquoted TZID ends: the colon before something like a date, since the zone's name may hold colons itself. */
const endOfZoneName = (line: string, from: number): number => {
  const semicolon = line.indexOf(";", from);
  for (let colon = line.indexOf(":", from); colon >= 0; colon = line.indexOf(":", colon + 1)) {
    if (semicolon >= 0 && semicolon < colon) return semicolon;
    if (/^\s*\d{4}-?\d{2}-?\d{2}/.test(line.slice(colon + 1, colon + 20))) return colon;
  }
  return endOfBare(line, from);
};

const endOfBare = (line: string, from: number): number => {
  let at = from;
  while (at < line.length && line[at] !== ";" && line[at] !== ":") at++;
  return at;
};

/** Reads a line; one without a colon has an empty value. */
export const parseContentLine = (line: string): ContentLine => {
  let at = endOfBare(line, 0);
  const name = line.slice(0, at).trim().toUpperCase();
  const params = new Map<string, string>();
  while (line[at] === ";") {
    const start = at + 1;
    let equals = start;
    while (equals < line.length && line[equals] !== "=" && line[equals] !== ";" && line[equals] !== ":") equals++;
    const key = line.slice(start, equals).trim().toUpperCase();
    at = equals;
    if (line[equals] !== "=") continue;
    const opening = equals + 1;
    const closing = line[opening] === '"' ? line.indexOf('"', opening + 1) : -1;
    let value: string;
    if (closing > 0) {
      value = line.slice(opening + 1, closing);
      at = endOfBare(line, closing + 1);
    } else {
      at = key === "TZID" ? endOfZoneName(line, opening) : endOfBare(line, opening);
      value = line.slice(opening, at);
    }
    const before = params.get(key);
    if (key && before === undefined) params.set(key, value);
    else if (key === "TZID" && before !== value && value !== "")
      params.set(key, before ? `${before} or ${value}` : value);
  }
  return { name, params, value: line.slice(at + 1) };
};
