/**
 * Whether an outside reader finds a comma or a semicolon that is not escaped (RFC 5545 §3.3.11). In a single TEXT every reader
 * here forgives it; in a list a bare comma begins another value, in a structured value a bare semicolon another part. So
 * each words' line is read by ical.js once more under the name of such a property.
 */
import ICAL from "ical.js";

const WORDS = /^(?:SUMMARY|DESCRIPTION|NAME|X-WR-CALNAME|X-WR-CALDESC|UID|RELATED-TO)(?:;[^:]*)?:(.*)$/gm;

const valuesOf = (line: string): readonly unknown[] => ICAL.Property.fromString(line).getValues();

/** How many lines hold words, and those of them that fall into several values. */
export const fallApart = (feed: string): { readonly lines: number; readonly apart: readonly string[] } => {
  const values = Array.from(feed.replaceAll("\r\n ", "").matchAll(WORDS), ([, value = ""]) => value.trimEnd());
  const apart = values.filter(
    (value) => valuesOf(`CATEGORIES:${value}`).length > 1 || valuesOf(`REQUEST-STATUS:${value}`).some(Array.isArray),
  );
  return { lines: values.length, apart: apart.map((value) => value.slice(0, 200)) };
};
