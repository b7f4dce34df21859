/** POST /api/count-back: the engine for one appointment. Nothing is stored; with a salon's key its own settings rule. */
import { Hono } from "hono";
import { checkOutcome } from "../plan/factCheck.ts";
import type { Fact, Plan, Refusal } from "../plan/types.ts";
import { formatInstant, type Instant } from "../time/instant.ts";
import { salonOnly } from "./admit.ts";
import { bookingOf, countOne, factsOf, farError, serviceError, startOf } from "./countOne.ts";
import { countBackRequest } from "./doors.ts";
import type { Service } from "./env.ts";
import { planJson } from "./planJson.ts";
import { problem, type RequestError } from "./problems.ts";
import { readJson } from "./readBody.ts";

export const countBackRoute = new Hono<Service>();

countBackRoute.use("/count-back", async (c, next) =>
  c.req.header("authorization") === undefined ? next() : salonOnly(c, next),
);

countBackRoute.post("/count-back", async (c) => {
  const read = await readJson(c.req.raw, countBackRequest);
  if (!read.ok) return problem(read.fault);
  const request = read.value;
  const start = startOf(request);
  if (typeof start !== "number") return problem({ code: "request-refused", errors: [start] });
  const now = request.now ?? Math.floor(Date.now() / 1000);
  const tooFar = farError(start, now);
  if (tooFar) return problem({ code: "request-refused", errors: [tooFar] });
  const errors = request.records.flatMap((record, index) =>
    record.at > now + 300 ? [aheadError(index, record.at)] : [],
  );
  if (errors.length > 0) return problem({ code: "request-refused", errors });
  const refusals = factsOf(request).flatMap((fact, index) => outcomeRefusals(fact, index));
  if (refusals.length > 0) return problem({ code: "record-refused", refusals });
  const { salon } = c.var as Partial<Service["Variables"]>;
  if (salon && !request.settings) {
    const shown = await salon.settings(null);
    if (!shown.ok) return problem(shown.fault);
    const { settings } = shown.value;
    const booking = bookingOf(request, start, settings);
    if (!booking) return problem({ code: "request-refused", errors: [serviceError(settings)] });
    return c.json(planJson((await salon.countBack(booking, factsOf(request), now)) as Plan));
  }
  const counted = await countOne(request, start, now);
  return counted.ok ? c.json(planJson(counted.value.plan)) : problem(counted.fault);
});

const aheadError = (index: number, at: Instant): RequestError => ({
  at: `records[${index}].at`,
  value: formatInstant(at),
  limit: "at most five minutes after now",
  remedy: "record what has happened, when it has",
  text: `records[${index}].at lies more than five minutes after now: record what has happened, when it has.`,
});

/** A do-not-colour without its ground stops all the same, so in a count-back it need not have one. */
const outcomeRefusals = (fact: Fact, index: number): readonly Refusal[] =>
  checkOutcome(fact)
    .filter(({ code }) => code !== "ground-missing")
    .map((refused) => ({
      ...refused,
      at: `records[${index}].${refused.at}`,
      text: `records[${index}].${refused.text}`,
    }));
