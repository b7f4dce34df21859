/** How a diary is named in addresses of the desk: its own name may be a person's. */
import { createHash } from "node:crypto";

export const diaryRef = (name: string): string => createHash("sha256").update(name).digest("hex").slice(0, 12);

/** The name behind a reference; undefined where no diary of the salon has it. */
export const diaryNamed = (names: readonly string[], ref: string): string | undefined =>
  names.find((name) => diaryRef(name) === ref);
