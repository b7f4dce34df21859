/** Takes one pushed diary; a name not yet known becomes a new pushed diary of the salon, once it could be read. */
import type { Instant } from "../time/instant.ts";
import { addDiary, changeSettings } from "./changeSettings.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";
import type { PushOrder } from "./PushOrder.ts";
import { horizonToday } from "./blockReads.ts";
import { beginReading, indexStream, overtakenReport, refuseReading, takeReading } from "./readings.ts";
import type { DiaryReport } from "./types.ts";

/**
 * A diary that was taken away while its push was on its way stays away.
 * @param wake settles the salon and gives the present instant; asked again once the body has been read
 */
export const pushDiary = async (
  keeper: Keeper,
  order: PushOrder,
  name: string,
  body: ReadableStream<Uint8Array>,
  wake: () => Promise<Instant>,
): Promise<Outcome<DiaryReport>> => {
  const began = await wake();
  const place = order.begin();
  const known = keeper.state.diaries.get(name);
  const begun = known && !isPulled(keeper, name) ? beginReading(keeper, name, began) : null;
  const indexed = await indexStream(body, horizonToday(keeper.desk.rules.zone, began));
  if (!keeper.exists) return fail({ code: "no-such-salon" });
  const read = await wake();
  const wasKnown = known !== undefined;
  const early = beforeIt(keeper, order, name, { wasKnown, begun, place }, read);
  if (early) return early;
  if (!indexed) return succeed(refuseReading(keeper, name, begun, { code: "push-broken-off" }, read));
  if ("refusal" in indexed) return succeed(refuseReading(keeper, name, begun, indexed.refusal, read));
  if (!wasKnown) {
    const added = await changeSettings(keeper, wake, () => addDiary(keeper, name));
    if (!added.ok) return added;
  }
  const now = await wake();
  const late = beforeIt(keeper, order, name, { wasKnown: true, begun, place }, now);
  if (late) return late;
  // Nothing is awaited from here on.
  const number = begun ?? beginReading(keeper, name, now);
  const report = takeReading(keeper, name, indexed, { number, trusted: false, etag: null, lastModified: null }, now);
  order.land(name, place);
  return succeed(report);
};

const isPulled = (keeper: Keeper, name: string): boolean =>
  Boolean(keeper.settings.diaries.find((each) => each.name === name)?.url);

interface Pushed {
  /** Whether the salon must know the diary by now. */
  readonly wasKnown: boolean;
  readonly begun: number | null;
  readonly place: number;
}

/** What came before the push could land: the diary is pulled by now, was taken away, or a later push was there first. */
const beforeIt = (
  keeper: Keeper,
  order: PushOrder,
  name: string,
  { wasKnown, begun, place }: Pushed,
  at: Instant,
): Outcome<DiaryReport> | undefined => {
  if (isPulled(keeper, name)) return fail({ code: "diary-is-pulled", diary: name });
  const diary = keeper.state.diaries.get(name);
  const isLate = order.isOvertaken(name, place);
  // Taken away and made anew, a diary numbers its readings from the start.
  const isGone = diary ? diary.begun < (begun ?? 0) : wasKnown || isLate;
  if (isGone) return fail({ code: "no-such-diary", known: [...keeper.state.diaries.keys()] });
  return isLate ? succeed(overtakenReport(name, at)) : undefined;
};
