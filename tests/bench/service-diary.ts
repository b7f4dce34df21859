/**
 * A diary of ten years and 25 MB, 100,000 entries, pushed to the whole service and pushed again unchanged, with one entry
 * moved, and after ten more readings: `npm run bench:service`. Prints how long each took and the peak memory of the runtime
 * (VmHWM of workerd, all of it: code, heap, SQLite and buffers). Needs Linux; asserts only that what was asked was done.
 *
 * One entry in ten is a colour, as in a salon that also cuts.
 */
import { readdirSync, readFileSync } from "node:fs";
import { DAY_SECONDS, type Instant } from "../../src/time/instant.ts";
import { dropFolder, newFolder, startService } from "../browser/localService.ts";
import { type DiaryPlan, diaryText } from "./busyDiary.ts";
import { busySettings } from "./busySalon.ts";

const ENTRIES = Number(process.env["BENCH_ENTRIES"] ?? 100_000);
const PORT = Number(process.env["PORT"] ?? 8_931);
const now: Instant = Math.floor(Date.now() / 1000);
const today = now - (now % DAY_SECONDS);

const folder = newFolder();
const started = await startService(PORT, folder);
const origin = `http://127.0.0.1:${PORT}`;

/** Peak and present memory in megabytes of the runtime that listens for us; the process tree is found by its group. */
const memoryOfRuntime = (): { readonly peak: number; readonly present: number } => {
  let [peak, present] = [0, 0];
  for (const pid of readdirSync("/proc").filter((name) => /^\d+$/.test(name))) {
    try {
      const command = readFileSync(`/proc/${pid}/cmdline`, "utf8");
      const group = Number(readFileSync(`/proc/${pid}/stat`, "utf8").split(") ")[1]?.split(" ")[2]);
      if (!command.includes("workerd") || !command.includes("serve") || group !== started.process.pid) continue;
      const status = readFileSync(`/proc/${pid}/status`, "utf8");
      const of = (name: string): number => Number(new RegExp(`${name}:\\s+(\\d+)`).exec(status)?.[1] ?? 0) / 1000;
      peak = Math.max(peak, of("VmHWM"));
      present = Math.max(present, of("VmRSS"));
    } catch {
      // A process that has ended meanwhile.
    }
  }
  return { peak, present };
};

const call = async (path: string, init: RequestInit): Promise<{ readonly status: number; readonly body: unknown }> => {
  const answer = await fetch(`${origin}${path}`, init);
  return { status: answer.status, body: await answer.json() };
};

const say = (what: string, milliseconds: number): void => {
  const { peak, present } = memoryOfRuntime();
  console.log(
    `${what.padEnd(36)} ${milliseconds.toFixed(0).padStart(6)} ms   runtime ${present.toFixed(0)} MB, peak ${peak.toFixed(0)} MB`,
  );
};

try {
  say("the service with its demo salon", 0);
  const made = await call("/api/salons", {
    method: "POST",
    headers: { authorization: "Bearer operator-of-a-test", "content-type": "application/json" },
    body: JSON.stringify({ ...busySettings, notColour: ["cut"], services: [{ name: "Colour", words: ["tint"] }] }),
  });
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
  const { key, feed } = made.body as { readonly key: string; readonly feed: string };
  const plan: DiaryPlan = {
    entries: ENTRIES,
    from: today - 3_000 * DAY_SECONDS,
    to: today + 650 * DAY_SECONDS,
    stampedAt: now,
    brief: true,
    moved: null,
  };
  const push = async (what: string, change: Partial<DiaryPlan>): Promise<void> => {
    let entry = 0;
    const text = diaryText({ ...plan, ...change }).replace(/SUMMARY:Root tint and finish/g, (words) =>
      entry++ % 10 === 0 ? words : "SUMMARY:Cut and finish    ",
    );
    const body = new TextEncoder().encode(text);
    const began = performance.now();
    const pushed = await call("/api/salon/diaries/main", {
      method: "PUT",
      headers: { authorization: `Bearer ${key}`, "content-type": "text/calendar" },
      body,
    });
    say(`${what}, ${(body.length / 1e6).toFixed(1)} MB`, performance.now() - began);
    if (pushed.status !== 200) throw new Error(JSON.stringify(pushed.body).slice(0, 500));
    const { status, counts } = pushed.body as { readonly status: string; readonly counts: unknown };
    console.log(`  ${status} ${JSON.stringify(counts)}`);
  };
  await push("first push", {});
  await push("unchanged, stamps renewed", { stampedAt: now + 900 });
  await push("one entry moved", { moved: Math.floor((ENTRIES * 3_010) / 3_650 / 10) * 10 });
  for (let round = 1; round <= 10; round++) await push(`unchanged, ${round} of 10`, { stampedAt: now + round * 60 });
  const began = performance.now();
  const bytes = (await (await fetch(feed)).arrayBuffer()).byteLength;
  say(`the salon's feed, ${(bytes / 1e6).toFixed(1)} MB`, performance.now() - began);
} finally {
  await started.interrupt();
  dropFolder(folder);
}
