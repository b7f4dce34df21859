/** What Thunderbird keeps of a subscribed calendar on disk: `calendar-data/cache.sqlite`, instants in microseconds of UTC. */
import { copyFileSync, existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { byUid, type Row } from "./feedRows.ts";

interface CachedEvent {
  readonly id: string;
  readonly title: string;
  readonly ical_status: string;
  readonly event_start: number;
  readonly event_end: number;
  readonly event_start_tz: string;
}

/** An all-day event is kept as midnight to midnight on clocks of no place. */
const instantOf = (microseconds: number, zone: string): string => {
  const text = new Date(microseconds / 1000).toISOString();
  return zone === "floating" ? text.slice(0, 10) : `${text.slice(0, 19)}Z`;
};

const FILES = ["cache.sqlite", "cache.sqlite-wal"];
const ASKED = "SELECT id, title, ical_status, event_start, event_end, event_start_tz FROM cal_events WHERE cal_id = ?";

/** Read from a copy, since a running Thunderbird keeps the file to itself. */
export const cachedRows = (profile: string, calendar: string): readonly Row[] => {
  const folder = mkdtempSync(join(tmpdir(), "countback-cache-"));
  try {
    for (const name of FILES) {
      const file = join(profile, "calendar-data", name);
      if (existsSync(file)) copyFileSync(file, join(folder, name));
    }
    const database = new DatabaseSync(join(folder, "cache.sqlite"));
    const events = database.prepare(ASKED).all(calendar) as unknown as readonly CachedEvent[];
    database.close();
    return byUid(
      events.map((event) => ({
        uid: event.id,
        start: instantOf(event.event_start, event.event_start_tz),
        end: instantOf(event.event_end, event.event_start_tz),
        title: event.title,
        status: event.ical_status,
      })),
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};
