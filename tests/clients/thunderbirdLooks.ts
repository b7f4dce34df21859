/** What a person sees: month, week, the little window under the pointer, one event opened. */
import type { Checks } from "./Checks.ts";
import type { Row } from "./feedRows.ts";
import { RunningThunderbird } from "./RunningThunderbird.ts";
import * as scripts from "./thunderbirdScripts.ts";
import { until } from "./until.ts";

interface OtherWindow {
  readonly address: string;
  readonly text: string;
  readonly scrolled: number;
}

const SUMMARY_DIALOG = "chrome://calendar/content/calendar-summary-dialog.xhtml";

const EMERGENCY = "call 999 now and say anaphylaxis";
/** Views and windows are drawn a moment after they were asked for. */
const DRAWN_MS = 10_000;

const say = (text: string): boolean => process.stdout.write(`${text}\n`);
const dayOf = ({ start }: Row): string => start.slice(0, 10);

/** @param calendar the client's, with its events in `rows` */
export const lookAround = async (
  thunderbird: RunningThunderbird,
  calendar: string,
  rows: readonly Row[],
  checks: Checks,
): Promise<void> => {
  // The colour itself, on days on which the demo's client has another route than the kit.
  const toDo = ["Put your skin test on by", "Your colour at"].map((words) =>
    rows.find(({ title }) => title.startsWith(words)),
  );
  const shown = toDo.find((row) => row !== undefined);
  if (!shown) throw new Error("the client's feed says neither when to put the test on nor when her colour is");
  await thunderbird.run(scripts.ARRANGE, RunningThunderbird.width, RunningThunderbird.height);
  for (const view of ["month", "week"] as const) {
    await thunderbird.run(scripts.SHOW, view, dayOf(shown));
    const inSight = (): Promise<readonly string[]> => thunderbird.run<readonly string[]>(scripts.IN_SIGHT);
    await until(async () => (await inSight()).includes(shown.title), DRAWN_MS);
    await thunderbird.picture(view);
    const seen = await inSight();
    say(`       the ${view}: ${seen.length} events in sight`);
    checks.isTrue(`the ${view} shows what to do`, seen.includes(shown.title), seen);
  }
  const tip = await thunderbird.run<readonly string[]>(scripts.TOOLTIP, calendar, shown.uid);
  say(tip.map((line) => `       | ${line.replaceAll(/\s+/g, " ")}`).join("\n"));
  checks.isTrue(
    "the window under the pointer has the event's words and the emergency words",
    [shown.title, EMERGENCY].every((words) => tip.join(" ").includes(words)),
    tip,
  );
  checks.isSame("no question and no alarm has opened", await otherWindows(thunderbird), []);
  await thunderbird.run(scripts.OPEN_EVENT, calendar, shown.uid);
  await until(async () => (await otherWindows(thunderbird)).some(({ text }) => text.includes(EMERGENCY)), DRAWN_MS);
  await thunderbird.picture("event");
  const [opened, ...more] = await otherWindows(thunderbird);
  say((opened?.text ?? "").replaceAll(/^/gm, "       | "));
  // Thunderbird goes to the first link of the description by itself.
  say(`       the description has been scrolled by ${opened?.scrolled} pixels as it opened`);
  checks.isSame("the event opens in one window", [opened?.address, more], [SUMMARY_DIALOG, []]);
  checks.isTrue("the opened event has the emergency words", opened?.text.includes(EMERGENCY) === true, opened?.text);
  await thunderbird.run(scripts.CLOSE_OTHER_WINDOWS);
};

const otherWindows = (thunderbird: RunningThunderbird): Promise<readonly OtherWindow[]> =>
  thunderbird.run<readonly OtherWindow[]>(scripts.OTHER_WINDOWS);
