/**
 * What the judge of records is told of a salon, its protocols' numbers in hours, and the terms of counting.md 25, written
 * from the page. Shares nothing with src/plan but the shape of a record.
 */
import type { Fact } from "../../src/plan/types.ts";

export const HOUR_S = 3_600;

export interface JudgedTest {
  readonly route: "in-salon" | "home-kit";
  readonly least: number;
  readonly most: number | null;
  readonly from: "application" | "removal";
  readonly wear: number | null;
  readonly looks: readonly number[];
  readonly onFile: {
    readonly months: number | null;
    readonly product: "same" | "any";
    readonly shade: "not-darker" | "any";
  } | null;
}

export interface JudgedSalon {
  readonly tests: readonly [JudgedTest, ...JudgedTest[]];
  readonly zone: string;
  readonly product: string | null;
  readonly shade: number | null;
}

export const isReaction = (fact: Fact): boolean => fact.kind === "reacted" || fact.outcome === "reaction";

/** From the last application that counts to the start, in seconds (counting.md 8). */
export const reachOf = ({ least, wear, from }: JudgedTest): number =>
  (least + (from === "removal" ? (wear ?? 0) : 0)) * HOUR_S;

/** Whether an earlier test keeps its lead and meets the terms, with nothing told since that asks anew. */
export const meetsTerms = (
  tested: Fact,
  test: JudgedTest,
  live: readonly Fact[],
  start: number,
  salon: JudgedSalon,
): boolean => {
  const terms = test.onFile;
  if (!terms || tested.at + reachOf(test) > start) return false;
  const isAsked = (fact: Fact): boolean => fact.kind === "screened" && fact.outcome === "test-needed";
  if (live.some((fact) => fact.at > tested.at && (isReaction(fact) || isAsked(fact)))) return false;
  if (terms.product === "same" && (tested.product === null || tested.product !== salon.product)) return false;
  const isLighter = tested.shade !== null && salon.shade !== null && salon.shade >= tested.shade;
  if (terms.shade === "not-darker" && !isLighter) return false;
  return terms.months === null || dateIn(salon.zone, start) <= monthsAfter(dateIn(salon.zone, tested.at), terms.months);
};

/** `2026-10-29`, by the platform's own calendar. */
const dateIn = (timeZone: string, at: number): string =>
  new Intl.DateTimeFormat("sv-SE", { timeZone, dateStyle: "short" }).format(at * 1000);

const monthsAfter = (date: string, months: number): string => {
  const [year, month, day] = date.split("-").map(Number) as [number, number, number];
  const lastDay = new Date(Date.UTC(year, month + months, 0)).getUTCDate();
  return new Date(Date.UTC(year, month - 1 + months, Math.min(day, lastDay))).toISOString().slice(0, 10);
};
