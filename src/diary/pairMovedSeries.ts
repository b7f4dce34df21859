/**
 * Bookings that moved together: all occurrences of a series, its rest under a new UID ("this and all that follow"), or
 * whatever else of one client and service went the same way. Pairs only what one shift explains.
 */
import type { Instant } from "../time/instant.ts";
import { seriesOf } from "./entryName.ts";
import type { KnownBooking, OwnedBooking } from "./identity.ts";
import { pairByShift } from "./pairByShift.ts";
import type { Horizon } from "./types.ts";
import type { Group, Unmatched } from "./Unmatched.ts";

export const pairMovedSeries = (
  open: Unmatched,
  isMissing: (each: KnownBooking) => boolean,
  now: Instant,
  horizon: Horizon,
): void => {
  const [past, ahead] = [
    { from: horizon.from, to: now + 1 },
    { from: now + 1, to: horizon.to },
  ];
  const isPast = ({ start }: { readonly start: Instant }): boolean => start >= past.from && start < past.to;
  const isLivePast = (each: KnownBooking): boolean => each.cancelledAt === null && isPast(each);
  // One UID says that it is one series, whatever else has changed. What has begun is never moved to a day ahead.
  const ofOneUid = (isKnown: (each: KnownBooking) => boolean, isOfPast: boolean) =>
    open.groups(
      (each) => (isKnown(each) ? `${each.client}\n${seriesOf(each.key)}` : null),
      ({ client, found }) => (isPast(found) === isOfPast ? `${client}\n${seriesOf(found.key)}` : null),
    );
  for (const group of ofOneUid(isMissing, false)) pairGroup(open, group, ahead);
  for (const group of ofOneUid(isLivePast, true)) pairGroup(open, group, past);
  const ofOneKin = () =>
    open.groups(
      (each) => (isMissing(each) ? `${each.client}\n${each.service}` : null),
      ({ client, found }) => (isPast(found) ? null : `${client}\n${found.service}`),
    );
  for (const group of ofOneKin()) pairSplitSeries(open, group, ahead);
  for (const group of ofOneKin()) if (goesTogether(group, ahead)) pairGroup(open, group, ahead);
};

const shiftOf = ({ known, found }: Group, window: Horizon) =>
  pairByShift(
    known.map(({ start }) => start),
    found.map((owned) => owned.found.start),
    window,
  );

const pairGroup = (open: Unmatched, group: Group, window: Horizon): void => {
  for (const [before, after] of shiftOf(group, window)?.pairs ?? []) {
    open.pair(group.known[before] as KnownBooking, group.found[after] as OwnedBooking);
  }
};

/** Without a common UID it takes several that went one way, and none that stays behind. */
const goesTogether = (group: Group, window: Horizon): boolean => {
  if (group.known.length < 2 || group.found.length < 2) return false;
  const shift = shiftOf(group, window);
  return shift !== undefined && shift.pairs.length > 1 && shift.unexplained === 0;
};

/** A new series in the place of just one that is gone. */
const pairSplitSeries = (open: Unmatched, { known, found }: Group, window: Horizon): void => {
  const gone = [...Map.groupBy(known, ({ key }) => seriesOf(key)).values()].filter(({ length }) => length > 1);
  const come = [...Map.groupBy(found, (owned) => seriesOf(owned.found.key)).values()].filter(
    ({ length }) => length > 1,
  );
  const fits = come.map((series) => gone.filter((each) => goesTogether({ known: each, found: series }, window)));
  for (const [place, series] of come.entries()) {
    const [only] = fits[place] ?? [];
    const isMeant = only && fits[place]?.length === 1 && fits.filter((each) => each.includes(only)).length === 1;
    if (isMeant) pairGroup(open, { known: only, found: series }, window);
  }
};
