/**
 * The salon's Durable Object as far as it lives: one salon, its state, its one alarm. The only place that asks the clock. What may
 * be asked of it stands in the faces, each of which first settles up to now, then answers.
 */
import { DurableObject } from "cloudflare:workers";
import { PULLS_AT_ONCE } from "../bounds.ts";
import type { DiarySettings } from "../settings.ts";
import type { Instant } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { Keeper } from "./keeper.ts";
import { diaryOf, repeatReading } from "./readings.ts";
import { nextAlarm } from "./nextAlarm.ts";
import { pullDiary } from "./pullDiary.ts";
import { PullQueue } from "./PullQueue.ts";
import { WaitingErasures } from "./WaitingErasures.ts";

export interface SalonEnv {
  readonly LINK_SECRET: string;
  readonly ALLOW_LOCAL_DIARIES?: string;
  /** `https://countback.example`: the origin written into links; absent: that of the request. */
  readonly PUBLIC_ORIGIN?: string;
}

export const secondsNow = (): Instant => Math.floor(Date.now() / 1000);

export abstract class SalonBase extends DurableObject<SalonEnv> {
  protected readonly keeper: Keeper;
  protected readonly pulls = new PullQueue(PULLS_AT_ONCE);
  readonly #erasures = new WaitingErasures();

  constructor(ctx: DurableObjectState, env: SalonEnv) {
    super(ctx, env);
    this.keeper = new Keeper(ctx.storage, {
      linkSecret: env.LINK_SECRET,
      allowLocal: env.ALLOW_LOCAL_DIARIES === "true",
      publicOrigin: env.PUBLIC_ORIGIN ?? null,
    });
  }

  /** Ready, and settled up to the instant it returns. */
  protected readonly wake = async (): Promise<Instant> => {
    const keeper = this.keeper;
    const isAnew = await keeper.ready(secondsNow());
    const now = Math.max(secondsNow(), keeper.state.settledTo);
    keeper.settle(now);
    if (isAnew) for (const name of keeper.state.diaries.keys()) repeatReading(keeper, name, now);
    this.#erasures.goOn(keeper, now);
    if ((await this.ctx.storage.getAlarm()) === null) await this.setAlarm();
    return now;
  };

  override async alarm(): Promise<void> {
    if (!this.keeper.exists) return;
    const now = await this.wake();
    const isDue = ({ name }: DiarySettings): boolean => (diaryOf(this.keeper, name).nextPoll ?? now + 1) <= now;
    await this.pullAll(this.keeper.settings.diaries.filter(isDue), () => this.#moveHorizons(secondsNow()));
  }

  /** @param afterwards what is to be done whatever came of the pulls, before the alarm is set */
  protected async pullAll(diaries: readonly DiarySettings[], afterwards: () => void = () => {}): Promise<void> {
    const pulls = await Promise.allSettled(
      diaries
        .filter(({ url }) => url)
        .map((diary) => this.pulls.add(`${diary.name}\n${diary.url}`, () => pullDiary(this.keeper, diary, this.wake))),
    );
    afterwards();
    await this.setAlarm();
    // A fault of this code in one pull is still a fault, but first the other diaries and the next alarm get their due.
    for (const pull of pulls) if (pull.status === "rejected") throw pull.reason;
  }

  /** The horizon moves with the days: what comes into it is read from the stored text. */
  #moveHorizons(now: Instant): void {
    const today = this.zone().dayAt(now);
    for (const { name, horizonDay } of this.keeper.state.diaries.values()) {
      if (horizonDay !== null && horizonDay < today) repeatReading(this.keeper, name, now);
    }
  }

  protected async setAlarm(): Promise<void> {
    if (!this.keeper.exists) return;
    this.#erasures.goOn(this.keeper, this.keeper.state.settledTo);
    const at = nextAlarm(this.keeper);
    if (at !== null) await this.ctx.storage.setAlarm(at * 1000);
  }

  protected zone(): Zone {
    return this.keeper.desk.rules.zone;
  }
}
