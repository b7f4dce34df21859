/** The forms one feed can be asked for in. Each is kept with its own bytes and its own ETag. */
import { createHash } from "node:crypto";

export interface FeedForm {
  /** Of the events wanted: their kinds, who does them, their service. Null: all. Each sorted, each word once. */
  readonly kinds: readonly string[] | null;
  readonly who: readonly string[] | null;
  /** As `serviceKey` writes them. */
  readonly service: readonly string[] | null;
  /** Times in UTC, for readers that trust no zone but that. */
  readonly utc: boolean;
  /** To-dos (RFC 5545 §3.6.2) instead of events. */
  readonly tasks: boolean;
  /** A file to import, whose events say that they will not follow a move. */
  readonly once: boolean;
  /** JSON (RFC 7265) instead of text. */
  readonly jcal: boolean;
}

/** A service as it is compared: in small letters, composed, so that no two ways of writing it differ. */
export const serviceKey = (service: string): string => service.normalize("NFC").toLowerCase().trim();

export const PLAIN: FeedForm = {
  kinds: null,
  who: null,
  service: null,
  utc: false,
  tasks: false,
  once: false,
  jcal: false,
};

/** What a form is kept under: nothing for the plain one, else a short word that says nothing of what was asked. */
export const variantOf = ({ kinds, who, service, utc, tasks, once, jcal }: FeedForm): string => {
  const isPlain = !kinds && !who && !service && !utc && !tasks && !once && !jcal;
  if (isPlain) return "";
  const asked = JSON.stringify([kinds, who, service, utc, tasks, once, jcal]);
  return createHash("sha256").update(asked).digest("base64url").slice(0, 27);
};
