/**
 * Strikes the name of somebody who is erased out of what was written about others: a record of another client keeps all it says
 * but who else was there. Works on one state in change.
 */
import { foldEmail, foldPhone } from "../diary/clients.ts";
import { foldName } from "../diary/foldName.ts";
import { phonePattern } from "../diary/phonePattern.ts";
import { ownersOf } from "./owners.ts";
import type { Work } from "./settle.ts";
import type { Client, ReactionReport, Recorded } from "./types.ts";

/** Stands where a name stood. */
export const STRUCK = "[erased]";

const escaped = (text: string): string => text.replace(/[\\^$.*+?()[\]{}|]/g, "\\$&");

/** An address in any case, and no part of a longer one. */
const addressPattern = (address: string): RegExp =>
  new RegExp(`(?<![\\p{L}\\p{N}._%+-])${escaped(address)}(?!\\.?[\\p{L}\\p{N}-])`, "giu");

const WORD = /[\p{L}\p{M}\p{N}]+/gu;

/** A name as words; whatever stands between them may be written otherwise. */
const wordsOf = (text: string): readonly { readonly folded: string; readonly from: number; readonly to: number }[] =>
  [...text.matchAll(WORD)].map(({ 0: word, index }) => ({
    folded: foldName(word),
    from: index,
    to: index + word.length,
  }));

/**
 * A name of several words, wherever they follow each other as whole words in one line. A name of one word may be any word: "May
 * came again" is left as it is.
 */
const strikeName = (text: string, name: string): string => {
  const wanted = wordsOf(name).map(({ folded }) => folded);
  if (wanted.length < 2) return text;
  const words = wordsOf(text);
  let struck = "";
  let kept = 0;
  for (let at = 0; at + wanted.length <= words.length; at++) {
    const run = words.slice(at, at + wanted.length);
    const [first, last] = [run[0], run.at(-1)];
    const isName = run.every(({ folded }, place) => folded === wanted[place]);
    if (!isName || !first || !last || /[.;:!?]/.test(text.slice(first.from, last.to))) continue;
    // Part of a longer name is somebody else's.
    if (/[\p{L}\p{N}][-‐]$/u.test(text.slice(0, first.from)) || /^[-‐][\p{L}\p{N}]/u.test(text.slice(last.to)))
      continue;
    struck += `${text.slice(kept, first.from)}${STRUCK}`;
    kept = last.to;
    at += wanted.length - 1;
  }
  return struck + text.slice(kept);
};

/** What is left of a trait's values once those that others have too are taken out. */
const ownOf = (
  trait: (client: Client) => string | null,
  rows: readonly Client[],
  others: readonly Client[],
): readonly string[] => {
  const theirs = new Set(others.map(trait));
  return [...new Set(rows.flatMap((row) => trait(row) ?? []))].filter((value) => !theirs.has(value));
};

/** @param rows who is erased; @param others who is not: what they have too is not struck out */
const strikerOf = (rows: readonly Client[], others: readonly Client[]): ((text: string) => string) => {
  const names = ownOf(({ name }) => foldName(name), rows, others);
  const patterns = [
    ...ownOf(({ email }) => foldEmail(email), rows, others).map(addressPattern),
    ...ownOf(({ phone }) => foldPhone(phone), rows, others).map(phonePattern),
  ];
  return (text) => {
    const named = names.reduce(strikeName, text);
    return patterns.reduce((left, pattern) => left.replace(pattern, STRUCK), named);
  };
};

/** Every word that a person wrote in records that are another's, and why others were decided about. */
export const strikeNames = (work: Work, rows: readonly Client[]): void => {
  const ids = new Set(rows.map(({ id }) => id));
  const others = [...work.clients.values()].filter(({ id, erased }) => !ids.has(id) && erased === null);
  const strike = strikerOf(rows, others);
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

/** What a person writes in her own words; a ground, a product and a batch are none, and what follows from them must not change. */
const writtenIn = ({ kind, note, by, reason }: Recorded): Partial<Pick<Recorded, "note" | "by" | "reason">> => ({
  note,
  by,
  ...(kind === "correction" ? { reason } : {}),
});

const struckRecord = (fact: Recorded, strike: (text: string) => string): Recorded => {
  const differing = (texts: object): readonly (readonly [string, string])[] =>
    Object.entries(texts).flatMap(([field, text]) =>
      typeof text === "string" && strike(text) !== text ? [[field, strike(text)] as const] : [],
    );
  const [fields, headings] = [differing(writtenIn(fact)), differing(fact.reaction ?? {})];
  if (fields.length + headings.length === 0) return fact;
  const reaction = fact.reaction && ({ ...fact.reaction, ...Object.fromEntries(headings) } as ReactionReport);
  return { ...fact, ...Object.fromEntries(fields), reaction };
};
