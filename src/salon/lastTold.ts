/** What a client told last by her link, for her own page. Pure. */
import { withoutCorrected } from "../plan/ledger.ts";
import { listRecords } from "./recordList.ts";
import type { Recorded, State } from "./types.ts";

/** Of what nobody has set aside; null: nothing. Hers alone: what stops her from another's appointment was told by that other. */
export const lastTold = (state: Pick<State, "facts" | "clients">, client: string): Recorded | null => {
  const { rows } = listRecords(state, { client, booking: null, after: null, limit: Number.POSITIVE_INFINITY });
  const standing = new Set(withoutCorrected(rows).map(({ id }) => id));
  return rows.findLast(({ id, via }) => via === "client-link" && standing.has(id)) ?? null;
};
