/**
 * Record × state → standing: the specification to which tests/pure/record-table.test.ts holds the engine, cell by cell.
 * Reasoned by hand from counting.md and printed in DEVELOPERS.md; the service never reads it, and no answer rests on it.
 */

import type { Cell, CellsOf } from "./recordTable/cell.ts";
import { AT_THE_END } from "./recordTable/cellsAtTheEnd.ts";
import { BEFORE_TEST } from "./recordTable/cellsBeforeTest.ts";
import { DONE } from "./recordTable/cellsDone.ts";
import { DURING_TEST } from "./recordTable/cellsDuringTest.ts";
import { ELSEWHERE } from "./recordTable/cellsElsewhere.ts";
import { STOPPED } from "./recordTable/cellsStopped.ts";
import { RECORDS, type RecordName } from "./recordTable/records.ts";
import { STATES, type StateName } from "./recordTable/states.ts";

const CELLS: CellsOf = { ...BEFORE_TEST, ...DURING_TEST, ...DONE, ...STOPPED, ...ELSEWHERE, ...AT_THE_END };

/** Every cell: the standing right after a record is kept in a state, or "refused". State by state, record by record. */
export const RECORD_TABLE: readonly Cell[] = (Object.keys(CELLS) as StateName[]).flatMap((state) =>
  (Object.keys(RECORDS) as RecordName[]).map((record) => {
    const [standing, reason] = CELLS[state][record];
    return { state, record, standing, reason };
  }),
);

export type { Cell, RecordName, StateName };
export { RECORDS, STATES };
