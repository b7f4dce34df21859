/** The table of records as the Markdown that DEVELOPERS.md shows. Words only: it reckons nothing. */
import { formatInstant, type Instant } from "../../time/instant.ts";
import { RECORD_TABLE, RECORDS, STATES, type StateName } from "../recordTable.ts";

const moment = (at: Instant): string => formatInstant(at).slice(5, 16).replace("T", " ");

/** States, records, then every cell, folded by its state; ends without a newline. */
export const printRecordTable = (): string =>
  [
    "| state | what is told | moment | standing |",
    "|---|---|---|---|",
    ...Object.entries(STATES).map(
      ([name, { says, now, standing }]) => `| \`${name}\` | ${says} | ${moment(now)} | ${standing} |`,
    ),
    "",
    "| record | what it is |",
    "|---|---|",
    ...Object.entries(RECORDS).map(([name, { says }]) => `| \`${name}\` | ${says} |`),
    ...[...new Set(RECORD_TABLE.map((cell) => cell.state))].flatMap(printState),
  ].join("\n");

const printState = (name: StateName): readonly string[] => [
  "",
  `<details><summary><b>${name}</b>: ${STATES[name].says} (${STATES[name].standing})</summary>`,
  "",
  "| record | standing | reason |",
  "|---|---|---|",
  ...RECORD_TABLE.filter((cell) => cell.state === name).map(
    ({ record, standing, reason }) => `| ${record} | ${standing} | ${reason} |`,
  ),
  "",
  "</details>",
];
