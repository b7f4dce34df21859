/** Count-backs reckoned by hand (by-hand/), put to POST /api/count-back: what it answers, to the second. */
import { expect, test } from "vitest";
import { CALENDAR_CASES } from "./by-hand/calendarCases.ts";
import { RECORD_CASES } from "./by-hand/recordCases.ts";
import { type PlanSeen, send } from "./client.ts";

/** `2026-12-23 16:30`, in UTC, as the contract writes it. */
const utc = (text: string): string => `${text.replace(" ", "T")}:00Z`;

const CASES = [...CALENDAR_CASES, ...RECORD_CASES].map((each) => [each.name, each] as const);

test.each(CASES)("%s: the service answers what was reckoned by hand", async (_name, each) => {
  const answer = await send("/api/count-back", {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(each.ask),
  });
  expect(answer.status).toBe(200);
  const plan = await answer.json<PlanSeen>();
  expect(plan).toMatchObject({ route: each.route, standing: each.standing });
  expect(
    plan.steps.map(({ kind, n, opens, due, state }) => [n === null ? kind : `${kind} ${n}`, opens, due, state]),
    each.by,
  ).toEqual(each.steps.map(([step, opens, due, state = "planned"]) => [step, utc(opens), utc(due), state]));
  const listed = plan.routes.filter(({ route, until }) => route !== "on-file" || until !== null);
  expect(
    listed.map(({ route, fits, until, earliest }) => [route, fits, until, earliest]),
    each.by,
  ).toEqual(
    each.routes.map(([route, fits, until, earliest]) => [
      route,
      fits,
      until === null ? null : utc(until),
      earliest === undefined ? null : utc(earliest),
    ]),
  );
});
