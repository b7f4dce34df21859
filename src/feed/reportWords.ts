/** The words of what a client can tell by one press: on her page, and kept with the record as what she read. */
import type { Fact } from "../plan/types.ts";
import type { Settings } from "../settings.ts";
import { catalogueOf } from "./language/catalogueOf.ts";

/** Null of what no press tells. */
export const reportWords = (
  { kind, outcome, route }: Pick<Fact, "kind" | "outcome" | "route">,
  language: Settings["language"],
): string | null => {
  const words = catalogueOf(language).report;
  if (kind === "arrived") return words.arrived;
  if (kind === "applied") return words.applied;
  if (kind === "removed") return words.removed;
  if (kind === "reacted") return words.somethingShows;
  if (kind === "read" && outcome === "clear") return words.clear;
  if (kind === "read" && outcome === "not-sure") return words.notSure;
  if (kind === "route" && route === "in-salon") return words.notCome;
  if (kind === "route" && route === "home-kit") return words.pleasePost;
  return null;
};
