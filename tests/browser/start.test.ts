/** `npm start` as a new user meets it: serves, survives a restart with the same bytes, and leaves nothing running. */
import { execFileSync } from "node:child_process";
import { afterAll, expect, test } from "vitest";
import { dropFolder, newFolder, startService } from "./localService.ts";

const folder = newFolder();
const PORT = 18_787;
afterAll(() => dropFolder(folder));

const isAnswering = (port: number): Promise<boolean> =>
  fetch(`http://127.0.0.1:${port}/healthz`).then(
    () => true,
    () => false,
  );

/** Every process whose command line names the folder, this test's own aside. */
const processesOf = (): string[] =>
  execFileSync("ps", ["-eo", "pid,args"], { encoding: "utf8" })
    .split("\n")
    .filter((line) => line.includes(folder) && !line.includes("vitest"));

test("serves the demo salon, keeps it over a restart byte for byte, and ends with Ctrl-C", async () => {
  const first = await startService(PORT, folder);
  expect(first.printed()).not.toMatch(/error|warn|uncaught/i);
  const feed = first.address("salon feed");
  const before = await fetch(feed);
  const [body, etag] = [await before.text(), before.headers.get("etag")];
  expect(body).toContain("BEGIN:VEVENT");
  const diary = await fetch(first.address("its diaries"));
  expect(await diary.text()).toContain("BEGIN:VCALENDAR");
  for (const standing of ["past", "cancelled", "late|no-time"])
    expect(first.printed()).toMatch(new RegExp(`\\((.*, )?(${standing})(, .*)?\\)`));
  expect(processesOf().length).toBeGreaterThan(0);
  await first.interrupt();
  await expect.poll(processesOf, { timeout: 10_000 }).toEqual([]);
  expect([await isAnswering(PORT), await isAnswering(PORT + 1)]).toEqual([false, false]);
  const second = await startService(PORT, folder);
  expect(second.address("salon feed")).toBe(feed);
  const after = await fetch(feed);
  expect(after.headers.get("etag")).toBe(etag);
  expect(await after.text()).toBe(body);
  expect((await fetch(feed, { headers: { "if-none-match": etag ?? "" } })).status).toBe(304);
  await second.interrupt();
  await expect.poll(processesOf, { timeout: 10_000 }).toEqual([]);
});
