/** Words that say nothing of what an appointment is for. */
import { compileWords, type Word, withoutWords } from "./compileWords.ts";

/** With these calendars show a time as taken when they hide everything else. */
const HIDING_WORDS = compileWords([
  "busy",
  "booked",
  "private",
  "reserved",
  "unavailable",
  "blocked",
  "appointment",
  "event",
  "tentative",
  "free",
  "no title",
]);

/** These stand around a name in what booking software writes for every appointment alike: "Appointment with …". */
const FILLING_WORDS = compileWords(
  (
    "a an and at by for from in my of on the to w with appt booking client confirmed customer guest hair hour* min* new " +
    "online pending regular returning salon service* session slot visit"
  ).split(" "),
);

const holdsLetter = (text: string): boolean => /\p{L}/u.test(text);

/**
 * Whether a text says anything beside the first: numbers and signs alone do not.
 * @param text folded by foldWords
 */
export const saysSomething = (text: string): boolean => holdsLetter(withoutWords(text, HIDING_WORDS));

/**
 * Whether a title without its client's name says what is done, not only with whom, where or how long.
 * @param text folded by foldWords
 * @param ours names of the salon's own: they stand in titles of every kind
 */
export const saysWhat = (text: string, ours: readonly Word[]): boolean =>
  holdsLetter(withoutWords(text, [...ours, ...HIDING_WORDS, ...FILLING_WORDS]));
