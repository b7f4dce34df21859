/** Takes one pushed diary; a name not yet known becomes a new pushed diary of the salon, once it could be read. */
import type { Instant } from "../time/instant.ts";
import { addDiary, changeSettings } from "./changeSettings.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";
import { horizonToday } from "./readBlocks.ts";
import { beginReading, indexStream, refuseReading, takeReading } from "./readings.ts";
import type { DiaryReport } from "./types.ts";

/** @param wake settles the salon and gives the present instant; asked again once the body has been read */
export const pushDiary = async (
  keeper: Keeper,
  name: string,
  body: ReadableStream<Uint8Array>,
  wake: () => Promise<Instant>,
): Promise<Outcome<DiaryReport>> => {
  const began = await wake();
  const diary = keeper.settings.diaries.find((each) => each.name === name);
  const number = diary && !diary.url ? beginReading(keeper, name, began) : null;
  const indexed = await indexStream(body, horizonToday(keeper.desk.rules.zone, began));
  if (diary?.url) return fail({ code: "diary-is-pulled", diary: name });
  const read = await wake();
  if (!indexed) return succeed(refuseReading(keeper, name, { code: "no-answer" }, read));
  if ("refusal" in indexed) return succeed(refuseReading(keeper, name, indexed.refusal, read));
  const added = await changeSettings(keeper, wake, () => addDiary(keeper, name));
  if (!added.ok) return added;
  const now = await wake();
  const from = { number: number ?? beginReading(keeper, name, now), trusted: false, etag: null, lastModified: null };
  return succeed(takeReading(keeper, name, indexed, from, now));
};
