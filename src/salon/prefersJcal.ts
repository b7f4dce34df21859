/** Whether an Accept header would rather have jCal than iCalendar (RFC 9110 §12.5.1). A tie is iCalendar, and so is silence. */

const JCAL = "application/calendar+json";

const weightOf = (range: string): number => {
  const weight = /;\s*q\s*=\s*"?([0-9.]+)/i.exec(range)?.[1];
  const value = weight === undefined ? 1 : Number(weight);
  return Number.isNaN(value) ? 0 : Math.min(1, value);
};

export const prefersJcal = (accept: string | null): boolean => {
  if (accept === null || !accept.toLowerCase().includes(JCAL)) return false;
  const weights = new Map<string, number>();
  for (const range of accept.split(",")) {
    const type = (range.split(";")[0] ?? "").trim().toLowerCase();
    weights.set(type, Math.max(weights.get(type) ?? 0, weightOf(range)));
  }
  // The most specific range that covers a type weighs it (RFC 9110 §12.5.1).
  const text = weights.get("text/calendar") ?? weights.get("text/*") ?? weights.get("*/*") ?? 0;
  return (weights.get(JCAL) ?? 0) > text;
};
