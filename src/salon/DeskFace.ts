/** What the salon's own pages ask besides: who may see them, and what stands on the first of them. */
import type { Settings } from "../settings.ts";
import type { Instant } from "../time/instant.ts";
import { maskSettings } from "./maskAddress.ts";
import { ClientFace } from "./ClientFace.ts";

/** What every page of the desk shows of the salon. */
export interface DeskHead {
  readonly now: Instant;
  /** No diary's address shows its user and password. */
  readonly settings: Settings;
  readonly version: number;
  readonly feedGeneration: number;
}

export abstract class DeskFace extends ClientFace {
  /** Null where the key it was opened with opens nothing any more. */
  async deskHead(keyHash: string): Promise<DeskHead | null> {
    if (!this.holdsKey(keyHash)) return null;
    const now = await this.wake();
    const { keeper } = this;
    return {
      now,
      settings: maskSettings(keeper.settings),
      version: keeper.version,
      feedGeneration: Number(keeper.store.meta("feed-generation")),
    };
  }
}
