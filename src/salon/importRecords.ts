/**
 * Takes in many records at once: earlier results of the salon's first day. Each line is taken or refused by itself; what is taken
 * is one change, all kept or nothing. A line that says what is on file already adds nothing.
 */
import { canBeOne, PeopleIndex } from "../diary/clients.ts";
import { foldName } from "../diary/foldName.ts";
import type { Person } from "../diary/types.ts";
import { checkFact } from "../plan/factCheck.ts";
import type { Fact, Refusal, Why } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { plainCircumstances } from "./circumstances.ts";
import { addClient } from "./clientFor.ts";
import { isStop } from "./factsByClient.ts";
import {
  OF_NOBODY,
  OF_NO_BOOKING,
  OF_NO_LINE,
  OTHER_ADDRESS,
  OTHER_CLIENT,
  SEVERAL_CLIENTS,
  UNKNOWN_BOOKING,
  UNKNOWN_CLIENT,
  WITHOUT_ROUTE,
} from "./lineRefusals.ts";
import { type Outcome, succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";
import { doOnce, type Once } from "./once.ts";
import { ownersOf, personOf } from "./owners.ts";
import { checkQuestions, checkReaction, type FactDraft, named } from "./records.ts";
import { REACTION_HEADINGS, type ReactionReport, type Recorded } from "./types.ts";
import { change, touch, type Work } from "./settle.ts";

/** One line: a record, and whose it is. `client` in the draft is an id, which goes before the name. */
export interface ImportLine {
  /** In the file, from 1. */
  readonly line: number;
  /** What the file calls the record, for corrections in it; null: nothing. */
  readonly id: string | null;
  readonly draft: FactDraft;
  readonly person: Person | null;
}

export interface RefusedLine {
  readonly line: number;
  readonly reason: Why;
}

export interface Imported {
  /** Lines that were taken. */
  readonly accepted: number;
  /** Lines that say what is on file already. */
  readonly known: number;
  /** Clients who were not known before. */
  readonly clients: number;
  readonly refused: readonly RefusedLine[];
}

/** @param isDryRun says what would come of it, and changes nothing */
export const importRecords = (
  keeper: Keeper,
  lines: readonly ImportLine[],
  isDryRun: boolean,
  once: Once | null,
  at: Instant,
): Outcome<Imported> => {
  const settled = Math.max(at, keeper.state.settledTo);
  if (isDryRun) {
    let found: Imported | undefined;
    change(keeper.state, settled, keeper.desk, (work) => {
      found = takeLines(keeper, work, lines);
    });
    return succeed(found as Imported);
  }
  return doOnce(keeper, once, at, {
    run: () => {
      let found: Imported | undefined;
      keeper.change(settled, (work) => {
        found = takeLines(keeper, work, lines);
      });
      return succeed(found as Imported);
    },
    keep: (imported) => ({ told: imported, client: null }),
    again: (told) => told as Imported,
  });
};

const takeLines = (keeper: Keeper, work: Work, lines: readonly ImportLine[]): Imported => {
  const people = new PeopleIndex(work.clients.values());
  const owners = ownersOf(work);
  const known = new Map<string, Fact[]>();
  const told = new Map<string, string>();
  const became = new Map<string, string>();
  for (const fact of work.facts.values()) {
    const owner = owners.ofRecord(fact);
    if (owner === null) continue;
    keepUnder(known, owner, fact);
    told.set(printOf(owner, fact, fact.reaction, fact.circumstances.questions), fact.id);
  }
  const before = work.clients.size;
  const refused: RefusedLine[] = [];
  let [accepted, repeated] = [0, 0];
  for (const { line, id, draft: written, person } of lines) {
    if (id !== null && isOnFile(work.facts.get(id), written)) {
      became.set(id, id);
      repeated++;
      continue;
    }
    const corrects = written.corrects === null ? null : (became.get(written.corrects) ?? "");
    if (corrects === "" && written.kind !== "reacted") {
      refused.push({ line, reason: whyOf(OF_NO_LINE) });
      continue;
    }
    const draft = withoutUnknown(work, { ...written, corrects });
    const whose = whoseLine(work, people, draft, person);
    if (whose.refusal) {
      refused.push({ line, reason: whyOf(whose.refusal) });
      continue;
    }
    const { words, questions, reaction, ...said } = draft;
    const bare: Fact = { ...said, client: whose.told, id: `r${work.nextFact}`, recorded: work.at };
    const hers = whose.client === null ? [] : (known.get(whose.client) ?? []);
    const fact = named(bare, hers);
    const print = printOf(whose.client ?? "", fact, reaction, questionsOf(fact, questions));
    const same = told.get(print);
    if (same !== undefined) {
      if (id !== null) became.set(id, same);
      repeated++;
      continue;
    }
    const [fault] = [
      ...checkFact(fact, hers, work.at),
      ...checkReaction(fact, reaction),
      ...checkQuestions(keeper, questions),
      ...checkLoose(fact),
    ];
    if (fault) {
      refused.push({ line, reason: whyOf(fault) });
      continue;
    }
    const client = whose.client ?? newcomer(work, people, person);
    told.set(whose.client === null ? printOf(client, fact, reaction, questionsOf(fact, questions)) : print, fact.id);
    if (id !== null) became.set(id, fact.id);
    const own = { ...fact, client: whose.told ?? client };
    // By which rule an earlier result came about, nobody has said.
    const circumstances = { ...plainCircumstances(keeper, own, { questions, words }), rule: null };
    work.facts.set(own.id, { ...own, circumstances, reaction });
    work.nextFact++;
    keepUnder(known, client, own);
    touch(work, client);
    accepted++;
  }
  return { accepted, known: repeated, clients: work.clients.size - before, refused };
};

const keepUnder = (known: Map<string, Fact[]>, client: string, fact: Fact): void => {
  const list = known.get(client);
  if (list) list.push(fact);
  else known.set(client, [fact]);
};

/** The version of the questions says something of a screening alone. */
const questionsOf = ({ kind }: Fact, questions: number | null): number | null =>
  kind === "screened" ? questions : null;

/** Whether a line says just what the record of its number here says: the salon's own log, read back. */
const isOnFile = (fact: Recorded | undefined, { words: _words, questions, reaction, ...said }: FactDraft): boolean => {
  if (!fact) return false;
  const line: Fact = { ...said, id: fact.id, recorded: fact.recorded };
  const asked = questionsOf(line, questions);
  return printOf("", line, reaction, asked) === printOf("", fact, fact.reaction, fact.circumstances.questions);
};

/** What a record says, whenever it was told. */
const printOf = (client: string, fact: Fact, reaction: ReactionReport | null, questions: number | null): string => {
  const { id: _id, recorded: _recorded, client: _client, ...said } = fact;
  const fields = Object.entries(said).filter(([name]) => SAID.has(name));
  const described = reaction && REACTION_HEADINGS.map((heading) => reaction[heading]);
  return JSON.stringify([client, fields.toSorted(([one], [other]) => (one < other ? -1 : 1)), described, questions]);
};

const SAID: ReadonlySet<string> = new Set([
  "booking",
  "kind",
  "at",
  "outcome",
  "route",
  "by",
  "via",
  "product",
  "shade",
  "batch",
  "site",
  "photo",
  "reason",
  "note",
  "corrects",
]);

/** The person, and the client it is told of, who may have turned out to be that person; null: somebody not known yet. */
type Whose =
  | { readonly client: string | null; readonly told: string | null; readonly refusal?: undefined }
  | { readonly refusal: Refusal };

/** What stops somebody is kept without an appointment that is not known here: it stops her all the same. */
const withoutUnknown = (work: Work, draft: FactDraft): FactDraft =>
  draft.booking !== null && !work.bookings.has(draft.booking) && isStop(draft) ? { ...draft, booking: null } : draft;

/** Whose a line is. */
const whoseLine = (work: Work, people: PeopleIndex, draft: FactDraft, person: Person | null): Whose => {
  const booking = draft.booking === null ? undefined : work.bookings.get(draft.booking);
  if (draft.booking !== null && !booking) return { refusal: UNKNOWN_BOOKING };
  const found = findClient(work, people, draft.client, person);
  if (found.refusal) return found;
  const client = found.client ?? (person === null ? (booking?.client ?? null) : null);
  if (client === null && person === null) return { refusal: OF_NOBODY };
  if (booking && booking.client !== client) return { refusal: UNKNOWN_BOOKING };
  return { client, told: booking?.under ?? found.told };
};

const findClient = (work: Work, people: PeopleIndex, id: string | null, person: Person | null): Whose => {
  if (id !== null) {
    const client = work.clients.get(personOf(work.clients, id));
    if (client?.erased !== null) return { refusal: UNKNOWN_CLIENT };
    const hers = [...work.clients.values()].filter((each) => personOf(work.clients, each.id) === client.id);
    const ofName = person ? hers.filter(({ name }) => foldName(name) === foldName(person.name)) : hers;
    if (ofName.length === 0) return { refusal: OTHER_CLIENT };
    if (person && !ofName.some((each) => canBeOne(each, person))) return { refusal: OTHER_ADDRESS };
    return { client: client.id, told: id };
  }
  if (person === null) return { client: null, told: null };
  if (people.isAnyOfSeveral(person)) return { refusal: SEVERAL_CLIENTS };
  const known = people.find(person);
  return { client: known ? personOf(work.clients, known.id) : null, told: known?.id ?? null };
};

const newcomer = (work: Work, people: PeopleIndex, person: Person | null): string => {
  if (person === null) throw new Error("a line of nobody was taken");
  const added = addClient(work, person, person.email !== null || person.phone !== null);
  people.add(added);
  return added.id;
};

/** What says nothing without an appointment, and a result that would count for nothing. */
const checkLoose = (fact: Fact): readonly Refusal[] => {
  if (fact.booking !== null) return [];
  if (["posted", "arrived", "confirmed", "route"].includes(fact.kind)) return [OF_NO_BOOKING];
  const isOfTest = fact.route === "in-salon" || fact.route === "home-kit";
  return fact.kind === "read" && fact.outcome === "clear" && !isOfTest ? [WITHOUT_ROUTE] : [];
};

const whyOf = ({ code, text }: Refusal): Why => ({ code, text });
