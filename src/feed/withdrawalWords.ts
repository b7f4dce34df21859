/** What a client reads where she takes her agreement back: on her page, and kept with the withdrawal. */
import type { Settings } from "../settings.ts";
import { catalogueOf } from "./language/catalogueOf.ts";

/** What follows from it, and what she presses. */
export const withdrawalWords = (
  language: Settings["language"],
): { readonly follows: string; readonly press: string } => {
  const { follows, withdraw } = catalogueOf(language).questions.kept;
  return { follows, press: withdraw };
};
