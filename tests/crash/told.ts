/** What people at a salon and its clients tell, thrown by the dice: records of every kind, and answers to the questions. */
import type { Dice } from "../fuzz/Dice.ts";
import type { Journal } from "./Journal.ts";
import { screeningKey } from "./Journal.ts";
import type { WatchedSalon } from "./WatchedSalon.ts";

type Fields = Record<string, unknown>;

const byKind = (dice: Dice): readonly Fields[] => [
  { kind: "screened", outcome: dice.of(["pass", "pass", "test-needed"]) },
  { kind: "screened", outcome: "do-not-colour", reason: dice.of(["other", "past-reaction", "under-16"]) },
  { kind: "posted", product: "Testbox 3", batch: `B${dice.below(100)}` },
  { kind: "arrived" },
  { kind: "applied", site: "behind the ear", shade: 1 + dice.below(10) },
  { kind: "removed" },
  { kind: "read", outcome: dice.of(["clear", "clear", "reaction", "not-sure"]) },
  { kind: "reacted" },
  { kind: "confirmed" },
  { kind: "route", route: dice.of(["in-salon", "home-kit", "on-file"]) },
  { kind: "note" },
];
const OF_A_CLIENT = new Set(["arrived", "applied", "removed", "read", "reacted", "route"]);
const HOUR_MS = 3_600_000;

/** Now, or an hour of the last three days. */
const happened = (dice: Dice): Fields =>
  dice.below(2) === 0 ? {} : { at: `${new Date(Date.now() - dice.below(72) * HOUR_MS).toISOString().slice(0, 19)}Z` };

/** What a person at the salon records. */
export const recordOf = (dice: Dice, salon: WatchedSalon, note: string): Fields => {
  const target = dice.below(8) === 0 ? correctable(dice, salon.journal) : undefined;
  if (target) return { ...target, kind: "correction", reason: "Written down for the wrong day", note };
  const { uid, client } = dice.of(salon.bookings);
  const whose = dice.of<Fields>([{ client: client.id, booking: uid }, { booking: uid }, { client: client.id }]);
  return { ...dice.of(byKind(dice)), ...whose, ...happened(dice), by: "Ines", note };
};

/** What a client reports by her link. */
export const reportOf = (dice: Dice, note: string): Fields => ({
  ...dice.of(byKind(dice).filter(({ kind }) => OF_A_CLIENT.has(String(kind)))),
  ...happened(dice),
  note,
});

const correctable = (dice: Dice, { records }: Journal): Fields | undefined => {
  const told = [...records.values()].flatMap(({ told: json }) => json ?? []);
  if (told.length === 0) return undefined;
  const { id, client } = JSON.parse(dice.of(told)) as { id: string; client: string };
  return { corrects: id, client };
};

/** Answers that this client has not given before, so that they are known again by what they are. */
export const answersOf = (
  dice: Dice,
  ids: readonly string[],
  client: string,
  { screenings }: Journal,
): Readonly<Record<string, string>> => {
  const answers = Object.fromEntries(ids.map((id) => [id, "no"]));
  while (screenings.has(screeningKey(client, answers))) answers[dice.of(ids)] = dice.of(["not-sure", "yes", "no"]);
  return answers;
};
