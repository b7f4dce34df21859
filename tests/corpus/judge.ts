/** What the command wrote of a file beside what it should have: each expected entry with the one that was read for it. */
import * as z from "zod";
import type { Expected } from "./expectedStarts.ts";

/** `lost`: nothing was said of it at all. */
export type Verdict = "right" | "not certain" | "skipped with its reason" | "wrong" | "lost";

const skip = z.object({ uid: z.string(), reason: z.string().min(1), text: z.string().min(1) });
const entry = z.object({
  uid: z.string(),
  start: z.string().nullable(),
  date: z.string().nullable(),
  certain: z.boolean(),
  reason: z.string().nullable(),
});
/** One line of `npm run read -- --json`, as far as it is judged. */
export const reading = z.object({
  status: z.enum(["read", "refused"]),
  reason: z.string().nullable(),
  raw: z.number(),
  entries: z.array(entry),
  skipped: z.array(skip),
  occurrences: z.array(z.unknown()),
});
type Entry = z.infer<typeof entry>;

const startOf = ({ start, date, reason }: Entry): string | null =>
  start ?? (date === null ? (reason === "time-missing" ? "NONE" : null) : `D:${date}`);

/** An entry without a UID is known by a name made from its content. */
const isOf = (expected: Expected, uid: string): boolean =>
  uid.trim() === expected.uid || (expected.uid === "" && uid.startsWith("content-"));

/** Takes the first that fits out of a list. */
const take = <Item>(list: Item[], fits: (item: Item) => boolean): Item | undefined => {
  const at = list.findIndex(fits);
  return at < 0 ? undefined : list.splice(at, 1)[0];
};

export interface Judged {
  readonly expected: Expected;
  readonly verdict: Verdict;
  readonly read: string;
}

/** Each expected entry with the one that was read for it; several of one UID are paired by their starts first. */
export const judge = (
  expectedHere: readonly Expected[],
  entries: Entry[],
  skipped: z.infer<typeof skip>[],
): Judged[] => {
  const judged: Judged[] = [];
  const left: Expected[] = [];
  for (const expected of expectedHere) {
    const same = take(entries, (each) => isOf(expected, each.uid) && startOf(each) === expected.start);
    if (same && expected.start !== null) judged.push({ expected, verdict: "right", read: expected.start });
    else if (same) judged.push({ expected, verdict: "not certain", read: same.reason ?? "" });
    else left.push(expected);
  }
  for (const expected of left) {
    const other = take(entries, ({ uid }) => isOf(expected, uid));
    const out = other ? undefined : take(skipped, ({ uid }) => isOf(expected, uid));
    if (other?.certain) judged.push({ expected, verdict: "wrong", read: startOf(other) ?? "nothing" });
    else if (other) judged.push({ expected, verdict: "not certain", read: other.reason ?? "no reason" });
    else if (out) judged.push({ expected, verdict: "skipped with its reason", read: out.reason });
    else judged.push({ expected, verdict: "lost", read: "nothing" });
  }
  return judged;
};
