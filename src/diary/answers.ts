/**
 * What people have said of entries that the salon's words did not settle, prepared once for sorting many entries of one
 * diary. An answer is of one entry; a phrase in it makes it one for entries like that one too. Whether an answer holds for
 * an entry is decided in ownAnswer.ts and likeAnswer.ts; what its phrase is, in phraseOf.ts.
 */
import type { Instant } from "../time/instant.ts";
import { hashText } from "./hashText.ts";
import type { Said } from "./readWords.ts";
import type { Person } from "./types.ts";

export const ANSWERED_AS = ["booking", "test", "not-colour"] as const;
export type AnsweredAs = (typeof ANSWERED_AS)[number];

/** One person's answer to one entry. */
export interface EntryAnswer {
  /** Of the entry, as `/api/salon/entries` names it. */
  readonly id: string;
  readonly diary: string;
  readonly uid: string;
  readonly key: string;
  readonly recurrenceId: string | null;
  /** Null: it holds wherever the entry moves. Else its start, since the file gives its UID to several entries. */
  readonly pinned: Instant | null;
  /** Of the summary (`titleOf`). */
  readonly title: string;
  /** What the words said of it then. */
  readonly said: Said;
  /** The name that the entry itself carried then, folded; null: none. */
  readonly carried: string | null;
  readonly as: AnsweredAs;
  /** Of a booking. */
  readonly service: string | null;
  /** Whose it is, where the person has said so. */
  readonly client: Person | null;
  /** What makes other entries like it; empty: nothing does. */
  readonly phrase: string;
  /** When it was first given, and when as it is now. */
  readonly first: Instant;
  readonly at: Instant;
}

/** The answers as one diary's entries meet them. */
export interface Answers {
  /** Of this diary, by UID, the first given first. */
  readonly byUid: ReadonlyMap<string, readonly EntryAnswer[]>;
  /** Of every diary. */
  readonly byPhrase: ReadonlyMap<string, EntryAnswer>;
}

export const NO_ANSWERS: Answers = { byUid: new Map(), byPhrase: new Map() };

/** Characters of a title that are kept as they are; of a longer one only whether it is the same can be told. */
const TITLE_KEPT_MAX = 500;

/** A summary as answers know it. */
export const titleOf = (text: string): string => (text.length <= TITLE_KEPT_MAX ? text : `#${hashText(text)}`);

/** Whether two summaries are one to the reader. */
export const isSameTitle = (answer: EntryAnswer, text: string): boolean => answer.title === titleOf(text);

/** @param diary whose entries are sorted */
export const compileAnswers = (answers: Iterable<EntryAnswer>, diary: string): Answers => {
  const all = [...answers];
  if (all.length === 0) return NO_ANSWERS;
  const byUid = new Map<string, EntryAnswer[]>();
  for (const answer of all.toSorted((one, other) => one.first - other.first || (one.id < other.id ? -1 : 1))) {
    if (answer.diary !== diary) continue;
    const list = byUid.get(answer.uid);
    if (list) list.push(answer);
    else byUid.set(answer.uid, [answer]);
  }
  return { byUid, byPhrase: settlePhrases(all) };
};

/**
 * What each phrase means: the newest answer, where it is a booking or all are of one kind. A phrase that was a booking once
 * and something else since is asked about again: the milder answer may have been of that one entry alone.
 */
const settlePhrases = (answers: readonly EntryAnswer[]): ReadonlyMap<string, EntryAnswer> => {
  const perPhrase = new Map<string, { newest: EntryAnswer; kinds: Set<AnsweredAs> }>();
  for (const answer of answers) {
    if (answer.phrase === "") continue;
    const known = perPhrase.get(answer.phrase);
    if (!known) perPhrase.set(answer.phrase, { newest: answer, kinds: new Set([answer.as]) });
    else {
      known.kinds.add(answer.as);
      if (isNewer(answer, known.newest)) known.newest = answer;
    }
  }
  const settled = new Map<string, EntryAnswer>();
  for (const [phrase, { newest, kinds }] of perPhrase) {
    if (newest.as === "booking" || kinds.size === 1) settled.set(phrase, newest);
  }
  return settled;
};

const isNewer = (answer: EntryAnswer, than: EntryAnswer): boolean =>
  answer.at > than.at || (answer.at === than.at && answer.id > than.id);

/** Changes when an entry of a diary might be sorted otherwise; empty without answers that concern it. */
export const printOfAnswers = (answers: Iterable<EntryAnswer>, diary: string): string => {
  const all = [...answers]
    .filter((answer) => answer.diary === diary || answer.phrase !== "")
    .toSorted((one, other) => (one.id < other.id ? -1 : 1));
  if (all.length === 0) return "";
  // Field by field: a row that comes back from storage may have them in another order.
  return hashText(
    JSON.stringify(
      all.map(({ id, pinned, title, said, carried, as, service, client, phrase, first, at }) => {
        const { name, email, phone } = client ?? { name: null, email: null, phone: null };
        return [id, pinned, title, said, carried, as, service, name, email, phone, phrase, first, at];
      }),
    ),
  );
};
