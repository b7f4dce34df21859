/** All that a desk looks at when it looks at one client. Reads only. */
import type { Plan } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { type ClientShown, showPerson } from "./clientList.ts";
import type { Keeper } from "./keeper.ts";
import type { LinkUse } from "./LinkTable.ts";
import { EVERY_PLAN, plansOf } from "./plans.ts";
import { listLog, type LogEntry } from "./recordList.ts";
import { keptOf } from "./retention.ts";
import { listScreenings, type ScreeningShown } from "./screenings.ts";
import type { Consent } from "./types.ts";

export interface ClientAtDesk {
  readonly shown: ClientShown;
  /** Of her appointments; of one who was erased there are none. */
  readonly plans: readonly Plan[];
  /** In the order they were told. */
  readonly records: readonly LogEntry[];
  readonly screenings: readonly ScreeningShown[];
  readonly consents: readonly Consent[];
  /** What became of the link that holds now; null: it was neither given nor opened. */
  readonly link: LinkUse | null;
}

const ALL = { booking: null, after: null, limit: Number.MAX_SAFE_INTEGER };

/** Also of one who was erased and of whom something is still kept; undefined where there is none of that id. */
export const clientAtDesk = ({ state, desk, store }: Keeper, id: string, now: Instant): ClientAtDesk | undefined => {
  const shown = showPerson(state, id);
  if (!shown) return undefined;
  const { rules } = desk;
  const { id: client, generation } = shown.client;
  const use = store.links.all().get(client);
  return {
    shown,
    plans: plansOf(state, rules, { ...EVERY_PLAN, client }, now).plans,
    records: listLog(state, { ...ALL, client }).rows,
    screenings: listScreenings(state, { ...ALL, client }).screenings,
    consents: keptOf(state, client, rules).consents,
    link: use?.generation === generation ? use : null,
  };
};
