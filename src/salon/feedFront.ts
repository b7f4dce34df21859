/**
 * Feeds as they were stored, answered without waking the salon: what one reading of storage tells of each, kept in memory
 * until something is written. Only this object writes its storage, so that what is kept can never be old.
 */
import { FEEDS_AT_HAND_BYTES } from "../bounds.ts";
import type { Instant } from "../time/instant.ts";
import { Zone } from "../time/zone.ts";
import { printOf } from "./desk.ts";
import { type FeedAsk, feedHeaders } from "./feedAsk.ts";
import { variantOf, type FeedForm } from "./feedForm.ts";
import type { FeedGlance, FeedHeld } from "./FeedTable.ts";
import type { Store } from "./store.ts";
import type { Audience } from "./types.ts";

export interface Found {
  /** Whose feed it is. */
  readonly audience: Audience;
  /** The generation whose links hold; null where this audience was never made. */
  readonly generation: number | null;
  /** Whether the link that holds was opened before. */
  readonly isOpened: boolean;
  /** What is stored and still said; null where it must be made. */
  readonly feed: FeedHeld | null;
}

export class FeedFront {
  readonly #store: Store;
  readonly #publicOrigin: string | null;
  /** The count of writes that all below was read at. */
  #changes = 0;
  readonly #glances = new Map<string, FeedGlance>();
  readonly #headers = new Map<string, Headers>();
  readonly #octets = new Map<string, Uint8Array>();
  #room = FEEDS_AT_HAND_BYTES;
  #print: { readonly key: string; readonly print: string } | undefined;

  constructor(store: Store, publicOrigin: string | null) {
    this.#store = store;
    this.#publicOrigin = publicOrigin;
  }

  /** Undefined where nothing is stored here, or by older code: the salon must be woken. One reading of storage at most. */
  find(audience: Audience, form: FeedForm, at: Instant): Found | undefined {
    const glance = this.#glance(audience, variantOf(form));
    if (!glance) return undefined;
    const { audience: holder, generation, opened, etag, modified, until } = glance;
    const isSaid = this.#isCurrent(glance, at) && (until === null || at < until);
    return {
      audience: holder,
      generation,
      isOpened: opened !== null,
      feed: isSaid && etag !== null && modified !== null ? { etag, modified } : null,
    };
  }

  /**
   * The headers of a feed that was found, made once. Where several bodies were said in one second the newest counts as of
   * a later one; what is sent is never ahead of the clock (RFC 9110 §8.8.2.1).
   */
  headers(ask: FeedAsk, feed: FeedHeld, at: Instant): Headers {
    this.#forgetOld();
    if (feed.modified > at) return feedHeaders(ask, { ...feed, modified: at });
    const key = `${ask.audience} ${variantOf(ask.form)} ${ask.name} ${ask.asIs}`;
    const known = this.#headers.get(key);
    if (known) return known;
    const headers = feedHeaders(ask, feed);
    this.#headers.set(key, headers);
    return headers;
  }

  /** The bytes of a feed that was found. */
  octets(audience: Audience, form: FeedForm): Uint8Array {
    this.#forgetOld();
    const variant = variantOf(form);
    const key = `${audience} ${variant}`;
    const known = this.#octets.get(key);
    if (known) return known;
    const octets = this.#store.feeds.octets(audience, variant);
    if (octets.length > this.#room) {
      this.#octets.clear();
      this.#room = FEEDS_AT_HAND_BYTES;
    }
    this.#octets.set(key, octets);
    this.#room -= octets.length;
    return octets;
  }

  #glance(audience: Audience, variant: string): FeedGlance | undefined {
    this.#forgetOld();
    const key = `${audience} ${variant}`;
    const known = this.#glances.get(key);
    if (known) return known;
    const glance = this.#store.feeds.glance(audience, variant);
    if (glance) this.#glances.set(key, glance);
    return glance;
  }

  #forgetOld(): void {
    if (this.#changes === this.#store.changes) return;
    this.#changes = this.#store.changes;
    this.#glances.clear();
    this.#headers.clear();
    this.#octets.clear();
    this.#room = FEEDS_AT_HAND_BYTES;
  }

  /** No boundary has passed, and the code, the zone data and the year are those it was made by. */
  #isCurrent({ next, zone, madeBy, origin }: FeedGlance, at: Instant): boolean {
    if (next === null || zone === null || (next !== "" && at >= Number(next))) return false;
    const year = new Date(at * 1000).getUTCFullYear();
    const key = `${zone} ${year} ${origin ?? ""}`;
    if (this.#print?.key !== key) {
      const clock = Zone.named(zone);
      if (!clock) return false;
      this.#print = { key, print: printOf(clock, year, this.#publicOrigin ?? origin ?? "") };
    }
    return this.#print.print === madeBy;
  }
}
