/** What other settings would change, in words: first how many, then each. */
import { longTime } from "../../../feed/timeInWords.ts";
import { catalogueOf } from "../../../feed/language/catalogueOf.ts";
import type { Standing, StepKind } from "../../../plan/types.ts";
import type { PlanBrief, PlanChange, SettingsPreview } from "../../../salon/previewSettings.ts";
import type { Settings } from "../../../settings.ts";
import type { Instant } from "../../../time/instant.ts";
import { Zone } from "../../../time/zone.ts";

const STANDINGS: Readonly<Record<Standing, string>> = {
  "on-track": "on track",
  due: "due",
  late: "late",
  "no-time": "no time left for any test",
  ready: "ready",
  stop: "stop",
  past: "past",
  cancelled: "cancelled",
};

const ROUTES = {
  "home-kit": "home kit",
  "in-salon": "walk-in test",
  "on-file": "earlier result, questions only",
} as const;

const KINDS: Readonly<Record<StepKind, string>> = {
  screening: "questions",
  shipping: "posting",
  arrival: "arrival",
  application: "putting it on",
  removal: "taking it off",
  reading: "looks",
  result: "result",
  rescreening: "questions",
};

const count = (number: number, one: string, many: string): string => `${number} ${number === 1 ? one : many}`;
const bookings = (number: number): string => count(number, "booking", "bookings");

const isNoTime = (brief: PlanBrief | null): boolean => brief?.standing === "no-time";
/** Whether no test fits any more, said so already or not yet: while nothing is told of one, it may be on. */
const isUnfit = (brief: PlanBrief | null): boolean => isNoTime(brief) || brief?.fits === false;

/** How many, one sentence for each kind of change; what costs something comes first. */
export const inNumbers = ({ changes, erased, unsorted }: SettingsPreview): readonly string[] => {
  const kept = changes.filter(({ before, after }) => before !== null && after !== null);
  const [lost, won] = [changes.filter(({ after }) => after === null), changes.filter(({ before }) => before === null)];
  const noTime = kept.filter(({ before, after }) => !isUnfit(before) && isUnfit(after));
  const late = kept.filter(
    ({ before, after }) => before?.standing !== "late" && after?.standing === "late" && !isUnfit(after),
  );
  const fits = kept.filter(({ before, after }) => isUnfit(before) && !isUnfit(after));
  const unread = kept.filter((change) => change.unread);
  const moved = kept.filter((change) => change.moved.length > 0 && !change.unread);
  const gone = [
    count(erased.records, "record", "records"),
    count(erased.answers, "set of answers", "sets of answers"),
    count(erased.clients, "client", "clients"),
  ].filter((each) => !each.startsWith("0 "));
  return [
    gone.length === 0 ? null : `${gone.join(", ")} would be let go at once and could not be had again.`,
    noTime.length === 0 ? null : `${bookings(noTime.length)} would no longer fit: no time would be left for a test.`,
    late.length === 0 ? null : `${bookings(late.length)} would be late at once.`,
    lost.length === 0 ? null : `${bookings(lost.length)} would be a booking no longer, with no deadlines.`,
    unread.length === 0
      ? null
      : `${bookings(unread.length)} could not be understood any more: what was read last would stay, and the desk is asked.`,
    moved.length === 0 ? null : `${bookings(moved.length)} would have steps at other times.`,
    fits.length === 0 ? null : `${bookings(fits.length)} would have time for a test again.`,
    won.length === 0 ? null : `${count(won.length, "entry", "entries")} would become a booking with deadlines.`,
    unsorted === null || unsorted.before === unsorted.after
      ? null
      : `Entries that nothing is understood of: ${unsorted.before} now, ${unsorted.after} then.`,
  ].filter((each) => each !== null);
};

export interface ChangeWords {
  readonly client: string;
  readonly start: string;
  readonly service: string;
  readonly before: string;
  readonly after: string;
  readonly moved: string;
}

/** @param settings of the zone and language that the times are said in */
export const changeInWords = (
  { client, start, service, before, after, moved, unread }: PlanChange,
  settings: Pick<Settings, "zone" | "language">,
): ChangeWords => {
  const zone = Zone.named(settings.zone);
  if (!zone) throw new Error("settings that were tried have a zone that nobody knows");
  const time = (at: Instant): string => longTime(at, zone, catalogueOf(settings.language).time);
  const brief = (each: PlanBrief | null): string => {
    if (each === null) return "no booking";
    const parts = [
      each.route && ROUTES[each.route],
      STANDINGS[each.standing],
      each.firstDue && `first by ${time(each.firstDue)}`,
    ];
    return parts.filter(Boolean).join(", ");
  };
  return {
    client: client?.name ?? "no client named",
    start: time(start),
    service: service ?? "",
    before: brief(before),
    after: unread ? `${brief(after)}; asked about at the desk` : brief(after),
    moved: [...new Set(moved.map((kind) => KINDS[kind as StepKind]))].join(", "),
  };
};
