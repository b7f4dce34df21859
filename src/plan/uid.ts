/** UIDs of events: derived from what an event is, never from a time, never random. */
import { createHash } from "node:crypto";
import type { StepKind } from "./types.ts";

/** The kinds of events a booking can have in a feed. */
export type UidKind = StepKind | "colour" | "notice";

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;
/** The namespace under which a salon's name becomes a namespace of its own where it is not a UUID already. */
const COUNTBACK_NAMESPACE = "8b6a1f0e-3d52-5c47-9a80-2f1de64c7b93";

/** The last namespace asked for: a salon's events all stand under one. */
let known: { readonly namespace: string; readonly octets: Uint8Array } | undefined;

const octetsOf = (namespace: string): Uint8Array => {
  if (known?.namespace === namespace) return known.octets;
  const space = UUID.test(namespace) ? namespace : uuid5(COUNTBACK_NAMESPACE, namespace);
  const octets = Buffer.from(space.replaceAll("-", ""), "hex");
  known = { namespace, octets };
  return octets;
};

/** Version 5 UUID of a name in a namespace (RFC 9562 §5.5); a namespace that is no UUID is first made one. */
export const uuid5 = (namespace: string, name: string): string => {
  const hash = createHash("sha1").update(octetsOf(namespace)).update(name, "utf8").digest();
  hash[6] = ((hash[6] as number) & 0x0f) | 0x50;
  hash[8] = ((hash[8] as number) & 0x3f) | 0x80;
  const hex = hash.toString("hex").slice(0, 32);
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
};

/**
 * The UID of one event of one booking. `n` numbers readings from 1 and is null for every other kind.
 * The booking's UID stands last, so that no UID with a separator in it can pass for another event.
 */
export const eventUid = (namespace: string, bookingUid: string, kind: UidKind, n: number | null): string =>
  uuid5(namespace, `${kind} ${n ?? "-"} ${bookingUid}`);
