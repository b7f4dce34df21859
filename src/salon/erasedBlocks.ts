/** Parts of a diary that tell of somebody who was erased: what has passed there is not read or kept again. Pure. */
import { createHash } from "node:crypto";
import { HORIZON_AHEAD_DAYS } from "../bounds.ts";
import { readBlock } from "../diary/readBlock.ts";
import { isAfter } from "../diary/roughSpan.ts";
import type { Block } from "../diary/types.ts";
import type { Instant } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { horizonToday } from "./blockReads.ts";
import type { State } from "./types.ts";

/** Names a block without saying its UID, which some exports make of a person's address. */
export const erasedKey = (diary: string, uid: string): string =>
  createHash("sha256").update(`${diary}\n${uid}`).digest("base64url");

/** What lies ahead counts whatever was erased: a new appointment needs its skin test. */
export const withoutErased = (
  blocks: readonly Block[],
  diary: string,
  { zone, at }: { readonly zone: Zone; readonly at: Instant },
  { erased }: Pick<State, "erased">,
): readonly Block[] => {
  if (erased.size === 0) return blocks;
  const today = zone.dayAt(at);
  const isPast = (block: Block): boolean => block.span.last < today || hasBegun(block);
  // A rule that counts may have ended long ago: whether it has, its entries say.
  const hasBegun = (block: Block): boolean => {
    if (isAfter(block.span, today + HORIZON_AHEAD_DAYS)) return false;
    const { entries, skipped } = readBlock(block, zone, horizonToday(zone, at));
    return (
      skipped.length === 0 &&
      entries.every(({ start, date }) => (start === null ? (date ?? today) < today : start < at))
    );
  };
  return blocks.filter((block) => !erased.has(erasedKey(diary, block.uid)) || !isPast(block));
};
