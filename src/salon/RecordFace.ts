/** What may be told and asked of what happened: records, the log, the evidence, answers to the questions. */
import type { Instant } from "../time/instant.ts";
import { bookingNamed } from "./bookingNamed.ts";
import { type Evidence, evidenceOf } from "./evidence.ts";
import { rulesHeld } from "./rulesHeld.ts";
import type { Outcome } from "./fault.ts";
import { type Imported, type ImportLine, importRecords } from "./importRecords.ts";
import { latestLog, listLog, type LogEntry, type Page, type RecordChoice } from "./recordList.ts";
import { addRecord, type FactDraft } from "./records.ts";
import { listScreenings, type ScreeningChoice, type ScreeningShown } from "./screenings.ts";
import { doOnce, type Once } from "./once.ts";
import type { Recorded } from "./types.ts";
import { DiaryFace } from "./DiaryFace.ts";

export abstract class RecordFace extends DiaryFace {
  /** The appointment that addresses of the desk name so; null: none is known. */
  async bookingNamed(ref: string): Promise<string | null> {
    await this.wake();
    return bookingNamed(this.keeper.state, this.keeper.store.meta("salon") ?? "", ref);
  }

  /** All that is on file about one appointment. */
  async evidence(booking: string): Promise<Outcome<Evidence>> {
    const now = await this.wake();
    const { start } = this.keeper.state.bookings.get(booking) ?? {};
    return evidenceOf(this.keeper, booking, await rulesHeld(this.keeper, start, now), now);
  }

  /** Records in the order they were told, each with whom it was told of and what has set it aside. */
  async recordLog(choice: RecordChoice): Promise<Page<LogEntry>> {
    await this.wake();
    return listLog(this.keeper.state, choice);
  }

  /** The same from the newest back. */
  async latestRecords(choice: RecordChoice): Promise<Page<LogEntry>> {
    await this.wake();
    return latestLog(this.keeper.state, choice);
  }

  async importRecords(lines: readonly ImportLine[], isDryRun: boolean, once: Once | null): Promise<Outcome<Imported>> {
    const now = await this.wake();
    const imported = importRecords(this.keeper, lines, isDryRun, once, now);
    await this.setAlarm();
    return imported;
  }

  async addRecord(draft: FactDraft, once: Once | null): Promise<Outcome<Recorded>> {
    const now = await this.wake();
    const added = this.recordOnce(once, now, () => addRecord(this.keeper, draft, now));
    await this.setAlarm();
    return added;
  }

  async screenings(choice: ScreeningChoice): Promise<{ screenings: readonly ScreeningShown[]; next: string | null }> {
    await this.wake();
    return listScreenings(this.keeper.state, choice);
  }

  protected recordOnce(once: Once | null, now: Instant, run: () => Outcome<Recorded>): Outcome<Recorded> {
    return doOnce(this.keeper, once, now, {
      run,
      keep: ({ id, client }) => ({ told: id, client }),
      again: (told) => this.keeper.state.facts.get(String(told)),
    });
  }
}
