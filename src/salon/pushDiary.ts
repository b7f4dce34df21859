/** Takes one pushed diary; a name not yet known becomes a new pushed diary of the salon, once it could be read. */
import { settingsSchema } from "../settings.ts";
import type { Instant } from "../time/instant.ts";
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
  if (!(await addDiary(keeper, name, wake))) return fail({ code: "diary-not-added" });
  const now = await wake();
  const from = { number: number ?? beginReading(keeper, name, now), trusted: false, etag: null, lastModified: null };
  return succeed(takeReading(keeper, name, indexed, from, now));
};

/** Whether the salon keeps a diary of that name, or its settings could take it. */
const addDiary = async (keeper: Keeper, name: string, wake: () => Promise<Instant>): Promise<boolean> => {
  while (!keeper.state.diaries.has(name)) {
    const { version, settings } = keeper;
    const parsed = settingsSchema.safeParse({ ...settings, diaries: [...settings.diaries, { name }] });
    if (!parsed.success || parsed.data.diaries.at(-1)?.name !== name) return false;
    const now = await wake();
    const desk = await keeper.tryDesk(parsed.data, new Date(now * 1000).getUTCFullYear());
    // Someone else may have changed the settings meanwhile: then it is tried on those.
    if (keeper.version === version) keeper.adopt(parsed.data, desk, now);
  }
  return true;
};
