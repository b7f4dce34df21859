/** What is said of a booking whose entry still stands and can no longer be understood. Rules of this project, no source. */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { createSalon, diaryText, type EntryText, MARA, plansOf, push, send, setClock } from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const at = (n: number, start: string): EntryText => ({ uid: `b${n}`, start, ...MARA });
const certain = (n: number): EntryText => at(n, `DTSTART;TZID=Europe/London:202612${10 + n}T103000`);
const uncertain = (n: number): EntryText => at(n, `DTSTART;TZID=Nowhere/Land:202612${10 + n}T090000`);
const report = async (key: string, entries: readonly EntryText[]) =>
  (await push(key, diaryText(entries))).json<{ status: string; counts: Record<string, number> }>();
const summaries = async (feed: string): Promise<string> =>
  (await (await send(`${feed}?kinds=notice`)).text()).replaceAll("\r\n ", "");

test("a booking whose new time is not certain keeps its old plan, and the salon's feed says that it may be wrong", async () => {
  const { key, feed } = await createSalon();
  await report(key, [certain(1)]);
  const before = (await plansOf(key)).map(({ booking }) => booking.start);
  expect(await summaries(feed)).not.toContain("can no longer be read");
  const { status, counts } = await report(key, [uncertain(1)]);
  expect({ status, unread: counts["unread"] }).toEqual({ status: "read", unread: 1 });
  expect((await plansOf(key)).map(({ booking }) => booking.start)).toEqual(before);
  expect(await summaries(feed)).toContain("an appointment can no longer be read since");
  expect((await plansOf(key))[0]?.why.map(({ code }) => code)).toContain("entry-unread");
  await report(key, [certain(1)]);
  const [, notice = ""] =
    /BEGIN:VEVENT((?:(?!END:VEVENT)[^])*can no longer be read[^]*?)END:VEVENT/.exec(await summaries(feed)) ?? [];
  expect(notice).toContain("STATUS:CANCELLED");
  expect((await plansOf(key))[0]?.why.map(({ code }) => code)).not.toContain("entry-unread");
});

test("a diary in which most of what lay ahead can no longer be read is held", async () => {
  const { key } = await createSalon();
  await report(key, [1, 2, 3, 4].map(certain));
  const { status, counts } = await report(key, [1, 2, 3, 4].map(uncertain));
  expect({ status, unread: counts["unread"] }).toEqual({ status: "held", unread: 4 });
  expect(await plansOf(key)).toHaveLength(4);
});

test("a cancellation cancels though its time cannot be read, and though it has none", async () => {
  for (const start of ["DTSTART;TZID=Nowhere/Land:20261211T090000", "X-NO-START:"]) {
    const { key } = await createSalon();
    await report(key, [certain(1)]);
    await report(key, [{ ...at(1, start), more: ["STATUS:CANCELLED"] }]);
    expect((await plansOf(key)).map(({ standing }) => standing)).toEqual(["cancelled"]);
  }
});
