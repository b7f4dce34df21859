/** What a cell of the table of records is. Shapes only. */
import type { Standing } from "../types.ts";
import type { RecordName } from "./records.ts";
import type { StateName } from "./states.ts";

/** A standing; after the start, with what is said first (counting.md 23); or that the door keeps no such record. */
export type TableStanding = Exclude<Standing, "past"> | "past-stop" | "past-ready" | "past-not-ready" | "refused";

/** The standing right after, and why, with the rule's number; a refusal's reason begins with its code. */
export type Said = readonly [standing: TableStanding, reason: string];

/** Every record in every state: what is missing does not compile. */
export type CellsOf = Readonly<Record<StateName, Readonly<Record<RecordName, Said>>>>;

export interface Cell {
  readonly state: StateName;
  readonly record: RecordName;
  readonly standing: TableStanding;
  readonly reason: string;
}
