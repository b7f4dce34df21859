/**
 * The rows of the coming weeks, under a heading for each day. Written as text, since there are hundreds: what comes from a diary
 * goes through `escapeHtml`, everything else is our own.
 */
import type { DeskRow, DeskWeeks, RowMark } from "../../salon/deskWeeks.ts";
import { chainRow } from "../chainRow.tsx";
import { escapeHtml } from "../escapeHtml.ts";
import { ROUTE_WORDS } from "../evidenceWords.ts";
import { bookingAddress } from "./booked.tsx";
import type { Signed } from "./desk.ts";
import { standingMark } from "./standing.tsx";
import { STEP_NAMES } from "./stepNames.ts";
import { wholeMinute } from "../../time/instant.ts";
import { type Times, timesOf } from "./times.ts";

/** What stays as it is until something is told, or its time comes: made once, and kept. */
export interface WeeksMade {
  readonly weeks: Omit<DeskWeeks, "rows" | "now">;
  readonly count: number;
  /** UTF-8. */
  readonly rows: Uint8Array;
}

export const makeRows = (signed: Signed, { rows, now: _now, ...weeks }: DeskWeeks): WeeksMade => {
  const times = timesOf(signed);
  const days = Map.groupBy(rows, ({ start }) => times.zone.dayAt(start));
  const text = [...days].map(([day, list]) => {
    const head = escapeHtml(times.date(times.zone.startOfDay(day)));
    const written = list.map((row) => rowText(signed, row, times, weeks));
    return `<tbody><tr class="day-head"><th scope="rowgroup" colspan="5">${head}</th></tr>${written.join("")}</tbody>`;
  });
  return { weeks, count: rows.length, rows: new TextEncoder().encode(text.join("")) };
};

const rowText = (signed: Signed, row: DeskRow, times: Times, axis: { readonly from: number; readonly to: number }) =>
  `<tr class="${row.standing}"><td class="clock">${escapeHtml(times.clock(row.start))}</td>` +
  `<th scope="row"><a href="${bookingAddress(signed, row.booking)}"><bdi>${escapeHtml(row.name)}</bdi></a> <span class="small">${escapeHtml(row.service)}</span></th>` +
  `<td>${standingMark(row.standing)}<span class="small">${row.route === null ? "" : (ROUTE_WORDS[row.route] ?? "")}</span></td>` +
  `<td class="next">${row.next === null ? "" : nextText(row.next, row.start, times)}</td>` +
  `<td class="along">${chainRow({ marks: row.marks, colour: row.start }, axis)}</td></tr>`;

const nextText = ({ kind, n, due: exact }: RowMark, colour: number, { zone, short, dated }: Times): string => {
  const due = wholeMinute(exact);
  const isNear = Math.abs(zone.dayAt(due) - zone.dayAt(colour)) < 7;
  const number = n === null || n === 1 ? "" : ` ${n}`;
  return `${STEP_NAMES[kind]}${number} <span class="small">by ${escapeHtml(isNear ? short(due) : dated(due))}</span>`;
};
