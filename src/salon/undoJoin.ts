/** Who came to a person by a join, and how she is herself again. Works on one state in change. */
import type { Work } from "./settle.ts";
import type { Booking, Client, State } from "./types.ts";

/** One who came by a join, and whoever had been joined with her before. */
interface Joined {
  readonly root: string;
  readonly rows: readonly Client[];
  /** Of those of the person she was joined with, the ones that came with her. */
  readonly bookings: readonly Booking[];
}

export const joinsOf = (work: Pick<State, "clients">, client: Client, hers: readonly Booking[]): readonly Joined[] => {
  const joined = [...work.clients.values()].filter((each) => each.joined === client.id);
  return joined.map((root) => {
    const rows = joined.filter((each) => isJoinedBy(work, each, root.id));
    const ids = new Set(rows.map(({ id }) => id));
    return { root: root.id, rows, bookings: hers.filter(({ under }) => ids.has(under)) };
  });
};

/** Who came by a join with just these bookings: the farthest reaching one. */
export const joinedWith = (
  work: Work,
  client: Client,
  hers: readonly Booking[],
  uids: ReadonlySet<string>,
): Joined | undefined =>
  joinsOf(work, client, hers)
    .filter(({ bookings }) => bookings.length === uids.size && bookings.every(({ uid }) => uids.has(uid)))
    .toSorted((one, other) => other.rows.length - one.rows.length)[0];

/** Whether a client came by way of another, or is that one. */
const isJoinedBy = ({ clients }: Pick<State, "clients">, client: Client, root: string): boolean => {
  for (let each: Client | undefined = client; each; each = clients.get(each.via ?? ""))
    if (each.id === root) return true;
  return false;
};

/** She is herself again; that the other's bare name is one woman had been said by the join alone. */
export const undoJoin = (work: Work, person: string, { root, rows }: Joined): void => {
  for (const each of rows) {
    const isRoot = each.id === root;
    // One who had been erased is erased again.
    const deed = [...work.deeds.values()].find(({ kind, client }) => kind === "erasing" && client === each.id);
    const erased = each.email === null && each.phone === null ? (deed?.at ?? null) : null;
    work.clients.set(each.id, { ...each, joined: isRoot ? null : root, via: isRoot ? null : each.via, erased });
  }
  const client = work.clients.get(person);
  const isJoined = [...work.clients.values()].some(({ joined }) => joined === person);
  const isSaid = [...work.deeds.values()].some((deed) => deed.kind === "confirmed" && deed.client === person);
  if (!client || isJoined || isSaid || client.email !== null || client.phone !== null) return;
  work.clients.set(person, { ...client, confirmed: false });
};
