/** The languages there are. A new one is a file beside these and a line here, and a value in the settings. */
import type { Settings } from "../../settings.ts";
import type { Catalogue } from "./catalogue.ts";
import { enGB } from "./en-GB.ts";
import { enUS } from "./en-US.ts";

const CATALOGUES: Readonly<Record<Settings["language"], Catalogue>> = { "en-GB": enGB, "en-US": enUS };

/** The words of a language. */
export const catalogueOf = (language: Settings["language"]): Catalogue => CATALOGUES[language];
