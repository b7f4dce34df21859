/**
 * Strikes the name of somebody who is erased out of what was written about others: a record of another client keeps all it says
 * but who else was there. Works on one state in change.
 */
import { foldEmail, foldPhone } from "../diary/clients.ts";
import { namesAny } from "./mentions.ts";
import { ownersOf } from "./owners.ts";
import type { Work } from "./settle.ts";
import type { Client, ReactionReport, Recorded } from "./types.ts";

/** Stands where a name stood. */
export const STRUCK = "[erased]";

const escaped = (text: string): string => text.replace(/[\\^$.*+?()[\]{}|]/g, "\\$&");

/** A name as it may be written: in any case, with any blanks between its words. */
const patternOf = (written: string): RegExp => new RegExp(written.trim().split(/\s+/).map(escaped).join("\\s+"), "giu");

/** Digits of a telephone with whatever stands between them. */
const phonePattern = (digits: string): RegExp =>
  new RegExp(`[+\\d]?[\\d\\s().-]{0,8}${digits.split("").join("[\\s().-]{0,2}")}`, "g");

/** @param rows who is erased; @param isAnothersName whether her name alone is somebody else's too */
const strikerOf = (rows: readonly Client[], isAnothersName: boolean): ((text: string) => string) => {
  const known = rows.map(({ name, email, phone }) => ({ name: isAnothersName ? null : name, email, phone }));
  const names = namesAny(known);
  const patterns = known.flatMap(({ name, email, phone }) => {
    const digits = foldPhone(phone);
    return [
      ...(name === null ? [] : [patternOf(name)]),
      ...(foldEmail(email) === null ? [] : [patternOf(email ?? "")]),
      ...(digits === null ? [] : [phonePattern(digits)]),
    ];
  });
  return (text) => {
    if (!names(text)) return text;
    const struck = patterns.reduce((left, pattern) => left.replace(pattern, STRUCK), text);
    // Written so that only its sense is found: then nothing of it can stay.
    return names(struck) ? STRUCK : struck;
  };
};

/** Every word that a person wrote in records that are another's, and why others were decided about. */
export const strikeNames = (work: Work, rows: readonly Client[]): void => {
  const ids = new Set(rows.map(({ id }) => id));
  const isNamed = namesAny(rows.map(({ name }) => ({ name, email: null, phone: null })));
  const others = [...work.clients.values()].filter(({ id, erased }) => !ids.has(id) && erased === null);
  const strike = strikerOf(
    rows,
    others.some(({ name }) => isNamed(name)),
  );
  const { ofRecord } = ownersOf(work);
  for (const fact of work.facts.values()) {
    if (ids.has(ofRecord(fact) ?? "")) continue;
    const struck = struckRecord(fact, strike);
    if (struck !== fact) work.facts.set(fact.id, struck);
  }
  for (const deed of work.deeds.values()) {
    const reason = deed.reason === null || ids.has(deed.client) ? deed.reason : strike(deed.reason);
    if (reason !== deed.reason) work.deeds.set(deed.id, { ...deed, reason });
  }
};

const WRITTEN = ["note", "reason", "site", "batch", "product", "photo"] as const;

const struckRecord = (fact: Recorded, strike: (text: string) => string): Recorded => {
  const fields = WRITTEN.flatMap((field) => {
    const text = fact[field];
    return text === null || strike(text) === text ? [] : [[field, strike(text)] as const];
  });
  const headings = Object.entries(fact.reaction ?? {}).flatMap(([heading, text]) =>
    typeof text === "string" && strike(text) !== text ? [[heading, strike(text)] as const] : [],
  );
  if (fields.length + headings.length === 0) return fact;
  const reaction = fact.reaction && ({ ...fact.reaction, ...Object.fromEntries(headings) } as ReactionReport);
  return { ...fact, ...Object.fromEntries(fields), reaction };
};
