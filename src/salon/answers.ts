/**
 * A person's answers to entries of the diaries: what may be answered, what is kept of it, and what follows at once. What an
 * answer means for an entry is decided in diary/sortEntry.ts.
 */
import { ENTRY_ANSWERS_MAX } from "../bounds.ts";
import { compileAnswers, type EntryAnswer } from "../diary/answers.ts";
import { findClient } from "../diary/findClient.ts";
import { foldName } from "../diary/foldName.ts";
import { bookedService, type GivenAnswer, makeAnswer } from "../diary/makeAnswer.ts";
import { sortEntry } from "../diary/sortEntry.ts";
import { refusal } from "../plan/refusal.ts";
import type { Refusal } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { type EntryFound, type EntryShown, findEntries, showEntry } from "./entries.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";
import { repeatReading } from "./readings.ts";

type TimedEntry = EntryFound & { readonly kind: "entry" };

/** Keeps an answer and sorts every diary anew by it; the same answer once more changes nothing. */
export const answerEntry = (keeper: Keeper, id: string, given: GivenAnswer, at: Instant): Outcome<EntryShown> => {
  const { found, beside } = lookUp(keeper, id);
  if (!found) return fail({ code: "no-such-entry" });
  if (found.kind === "skipped") return fail({ code: "entry-not-answerable", ground: "not-certain" });
  if (found.entry.cancelled) return fail({ code: "entry-not-answerable", ground: "cancelled" });
  if (given.as !== "not-colour" && found.entry.start === null) {
    return fail({ code: "entry-not-answerable", ground: "all-day" });
  }
  const refusals = refuseAnswer(found, given, keeper);
  if (refusals.length > 0) return fail({ code: "entry-answer-refused", refusals });
  const before = keeper.state.answers.get(id);
  const answer = toAnswer(found, given, beside, keeper, at);
  if (before && isSame(before, answer)) return succeed(showEntry(found, keeper.desk.sorting));
  const dropped = before ? null : toDrop(keeper);
  if (dropped === undefined) return fail({ code: "answers-full" });
  const gone = dropped === null ? undefined : keeper.state.answers.get(dropped);
  keeper.change(at, (work) => {
    if (gone) work.answers.delete(gone.id);
    work.answers.set(id, answer);
  });
  sortAnew(keeper, [before, answer, gone], at);
  const { entry, diary } = found;
  const sorted = sortEntry(entry, keeper.desk.sorting, compileAnswers(keeper.state.answers.values(), diary));
  return succeed(showEntry({ ...found, sorted }, keeper.desk.sorting));
};

/** Forgets an answer, of an entry in sight or not; where there was none, nothing changes. */
export const takeBackAnswer = (keeper: Keeper, id: string, at: Instant): Outcome<null> => {
  const answer = keeper.state.answers.get(id);
  if (answer) {
    keeper.change(at, (work) => void work.answers.delete(id));
    sortAnew(keeper, [answer], at);
    return succeed(null);
  }
  for (const found of findEntries(keeper)) if (found.id === id) return succeed(null);
  return fail({ code: "no-such-entry" });
};

/** An entry, and all of its diary; the other diaries are let go as they are passed. */
const lookUp = (
  keeper: Keeper,
  id: string,
): { readonly found?: EntryFound; readonly beside: readonly TimedEntry[] } => {
  for (const diary of keeper.state.diaries.keys()) {
    const all = [...findEntries(keeper, diary)];
    const found = all.find((each) => each.id === id);
    if (found) return { found, beside: all.filter((each) => each.kind === "entry") };
  }
  return { beside: [] };
};

/** Sorts the diaries that these answers concern: an answer with a phrase concerns all of them. */
const sortAnew = (keeper: Keeper, changed: readonly (EntryAnswer | undefined)[], at: Instant): void => {
  const isConcerned = (name: string): boolean =>
    changed.some((answer) => answer !== undefined && (answer.phrase !== "" || answer.diary === name));
  for (const name of [...keeper.state.diaries.keys()].filter(isConcerned)) repeatReading(keeper, name, at);
};

const refuseAnswer = (found: TimedEntry, given: GivenAnswer, keeper: Keeper): readonly Refusal[] => {
  const { sorting } = keeper.desk;
  const refusals: Refusal[] = [];
  const service = bookedService(found.entry, given.service, sorting);
  const names = sorting.services.map(({ name }) => name);
  if (given.as === "booking" && (service === null || !names.includes(service))) {
    refusals.push(
      refusal({
        code: "service-unknown",
        at: "service",
        value: null,
        limit: `one of the services of the settings, ${names.join(", ")}`,
        reason: "a booking is planned by what its service says",
        remedy: "write one of them, or add the service to the settings",
      }),
    );
  }
  const { client } = given;
  if (client !== null && sorting.staff.has(foldName(client.name))) {
    refusals.push(
      refusal({
        code: "client-is-staff",
        at: "client.name",
        value: null,
        limit: "the name of a client",
        reason: "the settings name that person among the staff",
        remedy: "name the client",
      }),
    );
  }
  if (given.as !== "not-colour" && client === null && findClient(found.entry, sorting) === null) {
    refusals.push(
      refusal({
        code: "client-missing",
        at: "client",
        value: null,
        limit: "the client of this entry",
        reason: "its title does not say for certain whose appointment it is",
        remedy: 'write one such as {"name": "Ann Brill"}',
      }),
    );
  }
  return refusals;
};

const toAnswer = (
  { id, diary, entry }: TimedEntry,
  given: GivenAnswer,
  beside: readonly TimedEntry[],
  { state, desk }: Keeper,
  at: Instant,
): EntryAnswer => {
  const clients = [...state.clients.values()].map(({ name }) => name);
  const first = state.answers.get(id)?.first ?? at;
  return makeAnswer(entry, given, { id, diary, first, at, beside, clients }, desk.sorting);
};

/** Whether an answer says what another said, whenever either was given. */
const isSame = (before: EntryAnswer, after: EntryAnswer): boolean =>
  JSON.stringify(before, FIELDS) === JSON.stringify(after, FIELDS);

/** Names the fields in one order: a row that comes back from storage may have another. */
const FIELDS = "id pinned title said carried as service client name email phone".split(" ");

/**
 * The answer that makes room for one more: the oldest by which no entry in sight is sorted. Null where there is room,
 * undefined where every one is used: what is in use is never forgotten.
 */
const toDrop = (keeper: Keeper): string | null | undefined => {
  const { state } = keeper;
  if (state.answers.size < ENTRY_ANSWERS_MAX) return null;
  const used = new Set<string | undefined>();
  for (const each of findEntries(keeper)) {
    if (each.kind === "entry" && each.sorted.kind !== "unsorted") used.add(each.sorted.answered?.answer);
  }
  return [...state.answers.values()]
    .filter(({ id }) => !used.has(id))
    .toSorted((one, other) => one.at - other.at)
    .at(0)?.id;
};
