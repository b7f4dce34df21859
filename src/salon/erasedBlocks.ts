/** Parts of a diary that tell of somebody who was erased: what has passed there is not read or kept again. Pure. */
import { createHash } from "node:crypto";
import type { Block } from "../diary/types.ts";
import type { Day } from "../time/instant.ts";
import type { State } from "./types.ts";

/** Names a block without saying its UID, which some exports make of a person's address. */
export const erasedKey = (diary: string, uid: string): string =>
  createHash("sha256").update(`${diary}\n${uid}`).digest("base64url");

/** One that has an entry today or later counts whatever was erased: a new appointment needs its skin test. */
export const withoutErased = (
  blocks: readonly Block[],
  diary: string,
  today: Day,
  { erased }: Pick<State, "erased">,
): readonly Block[] =>
  erased.size === 0
    ? blocks
    : blocks.filter(({ uid, span }) => span.last >= today || !erased.has(erasedKey(diary, uid)));
