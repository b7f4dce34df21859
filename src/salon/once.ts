/**
 * The same request sent twice is done once: what came of the first is answered again. Kept for a day, in the same write as
 * what was done, and without anybody's words (draft-ietf-httpapi-idempotency-key-header).
 */
import { REPEATS_KEPT_HOURS } from "../bounds.ts";
import { HOUR, type Instant } from "../time/instant.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";

/** How a request says which it is. */
export interface Once {
  /** Its Idempotency-Key, hashed. */
  readonly key: string;
  /** Of what it asks: another request under the same key is a mistake. */
  readonly print: string;
}

export interface Doing<Value> {
  readonly run: () => Outcome<Value>;
  /** What to keep of what was done: ids and counts. */
  readonly keep: (value: Value) => { readonly told: unknown; readonly client: string | null };
  /** The first answer from what was kept; undefined where it is gone since. */
  readonly again: (told: unknown) => Value | undefined;
}

/** Does it, unless it was done before. What is refused is not kept: mended, it may be sent again under its key. */
export const doOnce = <Value>(
  keeper: Keeper,
  once: Once | null,
  at: Instant,
  { run, keep, again }: Doing<Value>,
): Outcome<Value> => {
  if (once === null) return run();
  const { answered } = keeper.store;
  const known = answered.find(once.key, at - REPEATS_KEPT_HOURS * HOUR);
  if (known) {
    if (known.print !== once.print) return fail({ code: "idempotency-key-reused" });
    const value = known.told === null ? undefined : again(known.told);
    return value === undefined ? fail({ code: "done-and-gone" }) : succeed(value);
  }
  return keeper.asOne(() => {
    const done = run();
    if (done.ok) answered.add(once, keep(done.value), at, at - REPEATS_KEPT_HOURS * HOUR);
    return done;
  });
};
