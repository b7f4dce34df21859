/**
 * The events of one block put in order: what the file repeats or has replaced is set aside, and what is left is told apart
 * into the entries themselves and the changes to single occurrences. Never expands a series.
 */

import type { CertainStart } from "./expandSeries.ts";
import { originalOf } from "./originalOf.ts";
import type { EventTimes } from "./readEvent.ts";
import type { SkipCode } from "./skipReasons.ts";

/** A change to one occurrence (RECURRENCE-ID), or with `andFuture` to it and all that follow. */
export interface Override {
  readonly event: EventTimes;
  readonly id: CertainStart;
  /** It moves those that follow, while the one it names has a newer change of its own. */
  readonly onlyFuture?: boolean;
}

export interface Arranged {
  readonly masters: readonly EventTimes[];
  readonly overrides: readonly Override[];
  readonly aside: readonly { readonly event: EventTimes; readonly code: SkipCode }[];
}

/** Equal for events that say something of the same entry, of the same occurrence, or of all from the same one on. */
const subjectOf = (event: EventTimes): string => {
  const id = event.recurrenceId;
  if (id === null) return "entry";
  if (id.kind === "not-certain") return `written ${event.writtenRecurrenceId}`;
  return `${placeOf(id)}${event.andFuture ? " and future" : ""}`;
};

const placeOf = (id: CertainStart): string => (id.kind === "time" ? `time ${id.at}` : `date ${id.day}`);

/** Of two versions of one entry the higher SEQUENCE is the newer (RFC 5545 §3.8.7.4); at equal ones both stay. */
export const arrangeEvents = (events: readonly EventTimes[]): Arranged => {
  const aside: { event: EventTimes; code: SkipCode }[] = [];
  const newest = new Map<string, number>();
  for (const event of events) {
    const subject = subjectOf(event);
    newest.set(subject, Math.max(newest.get(subject) ?? event.sequence, event.sequence));
  }
  const masters: EventTimes[] = [];
  const overrides: Override[] = [];
  const texts = new Set<string>();
  for (const event of events) {
    const isRepeated = texts.has(event.text);
    texts.add(event.text);
    const id = event.recurrenceId;
    if (isRepeated) aside.push({ event, code: "repeated" });
    else if (event.sequence < (newest.get(subjectOf(event)) as number)) aside.push({ event, code: "superseded" });
    else if (id === null) masters.push(event);
    else if (id.kind === "not-certain") aside.push({ event, code: "recurrence-id-not-certain" });
    else overrides.push({ event, id });
  }
  return { masters, overrides, aside };
};

/**
 * Of the changes that name one occurrence of a series, the newest: a date, a UTC time and a local time may name the same
 * one. A newer change of that one alone leaves those that follow where an older change to all of them puts them. At equal
 * SEQUENCE all stay.
 * @param owner the start of the series; undefined where the file has none
 */
export const newestOverrides = (
  overrides: readonly Override[],
  owner: CertainStart | undefined,
): { readonly overrides: readonly Override[]; readonly superseded: Arranged["aside"] } => {
  if (overrides.length < 2) return { overrides, superseded: [] };
  const newest = { one: new Map<string, number>(), future: new Map<string, number>() };
  const named = overrides.map((override) => {
    const { andFuture, sequence } = override.event;
    const place = placeOf(owner ? originalOf(owner, override.id) : override.id);
    const known = andFuture ? newest.future : newest.one;
    known.set(place, Math.max(known.get(place) ?? sequence, sequence));
    return { override, place };
  });
  const kept: Override[] = [];
  const superseded: { event: EventTimes; code: SkipCode }[] = [];
  for (const { override, place } of named) {
    const { event } = override;
    const [one, future] = [newest.one.get(place), newest.future.get(place)];
    const isNewest = event.sequence === (event.andFuture ? future : Math.max(one ?? 0, future ?? one ?? 0));
    if (!isNewest) superseded.push({ event, code: "superseded" });
    else kept.push({ ...override, onlyFuture: event.andFuture && one !== undefined && one >= event.sequence });
  }
  return { overrides: kept, superseded };
};
