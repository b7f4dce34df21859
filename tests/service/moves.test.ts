/** One booking stays one, with its records, its events and their sequences, whatever the diaries do to its entry. */
import { reset, runInDurableObject } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import {
  ask,
  createSalon,
  diaryText,
  type EntryText,
  linkOf,
  MARA,
  MINIMAL,
  objectOf,
  plansOf,
  push,
  record,
  send,
  setClock,
  type TestSalon,
  WREN,
} from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

interface Report {
  readonly status: string;
  readonly reason: { readonly code: string; readonly text: string } | null;
  readonly counts: Record<string, number>;
  readonly unclear: readonly {
    readonly booking: string;
    readonly start: string;
    readonly text: string;
    readonly candidates: readonly { readonly uid: string; readonly start: string }[];
  }[];
}

const at = (day: string, time = "103000") => `DTSTART;TZID=Europe/London:202612${day}T${time}`;
const mara: EntryText = { uid: "b1", start: at("11"), ...MARA };
const wren: EntryText = { uid: "b2", start: at("18"), ...WREN };

let minutes = 0;
/** Pushes a diary one minute later, and gives its report. */
const pushed = async (salon: TestSalon, entries: readonly EntryText[], name = "main"): Promise<Report> => {
  minutes++;
  setClock(new Date(Date.UTC(2026, 11, 1, 9, minutes)).toISOString());
  return (await push(salon.key, diaryText(entries), name)).json<Report>();
};
beforeEach(() => {
  minutes = 0;
});

/** Identity, start and diary of what is not cancelled. */
const standing = async (salon: TestSalon): Promise<readonly string[]> =>
  (await plansOf(salon.key))
    .filter((plan) => plan.standing !== "cancelled")
    .map(({ booking: { uid, start, diary } }) => `${uid} ${start.slice(5, 16)} ${diary}`);

interface Seen {
  readonly uid: string;
  readonly sequence: number;
  readonly cancelled: boolean;
}
const eventsOf = (text: string): readonly Seen[] =>
  text
    .replaceAll("\r\n ", "")
    .split("BEGIN:VEVENT")
    .slice(1)
    .map((event) => ({
      uid: /^UID:(.*)$/m.exec(event)?.[1]?.trim() ?? "",
      sequence: Number(/^SEQUENCE:(\d+)/m.exec(event)?.[1] ?? 0),
      cancelled: event.includes("STATUS:CANCELLED"),
    }));
const feedOf = async (address: string): Promise<readonly Seen[]> => eventsOf(await (await send(address)).text());

const applied = (booking: string) => ({
  client: "c1",
  booking,
  kind: "applied",
  at: "2026-12-01T09:00:00Z",
  site: "behind the left ear",
});

test.each(["the old chair first", "the new chair first"])(
  "a booking that changes chairs keeps identity, record, events and sequences: %s is read",
  async (order) => {
    const salon = await createSalon();
    await pushed(salon, [mara, wren]);
    expect((await record(salon.key, applied("b1"))).status).toBe(201);
    const { feed } = await linkOf(salon.key, "c1");
    const before = await feedOf(feed);
    const moved = { ...mara, start: at("11", "140000") };
    const readings = [() => pushed(salon, [wren]), () => pushed(salon, [moved], "chair-2")];
    if (order.startsWith("the new")) readings.reverse();
    for (const reading of readings) expect((await reading()).status).toBe("read");
    expect(await standing(salon)).toEqual(["b1 12-11T14:00 chair-2", "b2 12-18T10:30 main"]);
    const plan = (await plansOf(salon.key)).find(({ booking }) => booking.uid === "b1");
    expect(plan?.steps.find(({ kind }) => kind === "application")?.state).toBe("done");
    const after = await feedOf(feed);
    for (const { uid, sequence } of before) {
      expect(after.find((each) => each.uid === uid)?.sequence).toBeGreaterThanOrEqual(sequence);
    }
    expect(after.filter(({ cancelled }) => !cancelled).map(({ uid }) => uid)).toEqual(
      before.filter(({ cancelled }) => !cancelled).map(({ uid }) => uid),
    );
    // Read again, in whatever order, it stays so.
    await pushed(salon, [moved, { uid: "b9", start: at("20"), ...WREN }], "chair-2");
    await pushed(salon, [wren, { uid: "cut", start: at("21"), summary: "Cut", ...WREN }]);
    expect((await standing(salon))[0]).toBe("b1 12-11T14:00 chair-2");
  },
);

test("a copy of which something was told stays a booking of its own", async () => {
  const salon = await createSalon();
  await pushed(salon, [mara, wren]);
  await pushed(salon, [mara], "chair-2");
  expect((await record(salon.key, applied("chair-2/b1"))).status).toBe(201);
  await pushed(salon, [wren]);
  expect(await standing(salon)).toEqual(["chair-2/b1 12-11T10:30 chair-2", "b2 12-18T10:30 main"]);
});

test("a diary that leaves the settings leaves its bookings to the diaries that have them too", async () => {
  const salon = await createSalon();
  await pushed(salon, [mara, wren]);
  await pushed(salon, [mara], "chair-2");
  expect((await ask(salon.key, "DELETE", "/api/salon/diaries/main")).status).toBe(204);
  expect(await standing(salon)).toEqual(["b1 12-11T10:30 chair-2"]);
  const rows = await runInDurableObject(objectOf(salon), (_instance, state) =>
    ["blocks", "reads", "held"].map(
      (table) => state.storage.sql.exec(`SELECT 1 FROM ${table} WHERE diary = 'main'`).toArray().length,
    ),
  );
  expect(rows).toEqual([0, 0, 0]);
});

test("a weekly series that moves by a day, and is then split, starts no test anew", async () => {
  const salon = await createSalon({ ...MINIMAL, tests: [{ route: "in-salon", protocol: "salon-48h" }] });
  const series = (uid: string, day: string, more: string) => ({ ...mara, uid, start: at(day), more: [more] });
  await pushed(salon, [series("s", "11", "RRULE:FREQ=WEEKLY;COUNT=6"), wren]);
  const first = (await plansOf(salon.key)).map(({ booking }) => booking.uid);
  expect((await pushed(salon, [series("s", "12", "RRULE:FREQ=WEEKLY;COUNT=6"), wren])).status).toBe("read");
  expect(new Set((await plansOf(salon.key)).map(({ booking }) => booking.uid))).toEqual(new Set(first));
  const split = [series("s", "12", "RRULE:FREQ=WEEKLY;COUNT=2"), series("t", "26", "RRULE:FREQ=WEEKLY;COUNT=4"), wren];
  expect((await pushed(salon, split)).status).toBe("read");
  const plans = await plansOf(salon.key);
  expect(new Set(plans.map(({ booking }) => booking.uid))).toEqual(new Set(first));
  expect(plans.filter((plan) => plan.standing === "cancelled")).toEqual([]);
});

test("an export that renews every UID keeps every booking, and says so from the second time on", async () => {
  const salon = await createSalon();
  const regular = ["11", "16", "22"].map((day) => ({ ...mara, start: at(day) }));
  const under = (letter: string): EntryText[] => [
    ...regular.map((entry, n) => ({ ...entry, uid: `${letter}${n}` })),
    { ...wren, uid: `${letter}9` },
  ];
  await pushed(salon, under("a"));
  expect((await record(salon.key, applied("a0"))).status).toBe(201);
  const before = await standing(salon);
  const reports = [await pushed(salon, under("b")), await pushed(salon, under("c")), await pushed(salon, under("d"))];
  expect(reports.map(({ status, reason }) => [status, reason?.code])).toEqual([
    ["read", undefined],
    ["read", "uids-renewed"],
    ["read", "uids-renewed"],
  ]);
  expect(reports[1]?.reason?.text).toBe(
    "This export gives every entry a new UID at each reading; bookings are matched by client, service and time.",
  );
  expect(reports[0]?.counts).toMatchObject({ ahead: 4, renewed: 4, added: 0, vanished: 0, moved: 0 });
  expect(await standing(salon)).toEqual(before);
  // One of them moves meanwhile, and is still the one it was.
  const moved = under("e").map((entry, n) => (n === 1 ? { ...entry, start: at("17") } : entry));
  await pushed(salon, moved);
  expect(await standing(salon)).toEqual(before.map((each) => each.replace("12-16", "12-17")));
  // An export that keeps its UIDs again says nothing of the kind.
  const kept = await pushed(
    salon,
    moved.map((entry) => ({ ...entry, summary: "Root tint, long" })),
  );
  expect(kept.reason).toBeNull();
});

test("what cannot be told is listed with its possible successors until its day has come", async () => {
  const salon = await createSalon();
  await pushed(salon, [mara, wren]);
  const anew = ["12", "15"].map((day) => ({ ...mara, uid: `n${day}`, start: at(day) }));
  const report = await pushed(salon, [...anew, wren]);
  expect(report.counts["unclear"]).toBe(1);
  expect(report.unclear).toEqual([
    {
      booking: "b1",
      start: "2026-12-11T10:30:00Z",
      text: expect.stringContaining(
        "which new booking of the same client and service is this one cannot be told",
      ) as string,
      candidates: [
        { uid: "n12", start: "2026-12-12T10:30:00Z" },
        { uid: "n15", start: "2026-12-15T10:30:00Z" },
      ],
    },
  ]);
  // The same text again, then another: it still asks.
  expect((await pushed(salon, [...anew, wren])).unclear.map(({ booking }) => booking)).toEqual(["b1"]);
  const next = await pushed(salon, [...anew, { ...wren, start: at("19") }]);
  expect([next.counts["unclear"], next.unclear.map(({ booking }) => booking)]).toEqual([0, ["b1"]]);
  setClock("2026-12-11T10:31:00Z");
  const later = await (await push(salon.key, diaryText([...anew, wren]))).json<Report>();
  expect(later.unclear).toEqual([]);
});

test("entries without a UID, and those whose order in the file changes, stay who they are", async () => {
  const salon = await createSalon();
  const bare = (entry: EntryText) =>
    diaryText([entry])
      .split("\r\n")
      .filter((line) => !line.startsWith("UID:"));
  const file = (entries: readonly EntryText[]): string =>
    diaryText([]).replace(
      "END:VCALENDAR",
      `${entries
        .flatMap((entry) => {
          const lines = bare(entry);
          return lines.slice(lines.indexOf("BEGIN:VEVENT"), lines.indexOf("END:VEVENT") + 1);
        })
        .join("\r\n")}\r\nEND:VCALENDAR`,
    );
  await push(salon.key, file([mara, wren]));
  const before = await standing(salon);
  await push(salon.key, file([wren, { ...mara, start: at("12") }]));
  expect(await standing(salon)).toEqual(before.map((each) => each.replace("12-11", "12-12")));
  const one = (entry: EntryText, uid: string) => ({ ...entry, uid });
  await push(salon.key, diaryText([one(mara, "k"), one(wren, "k")]), "chair-2");
  const mine = (await standing(salon)).filter((each) => each.endsWith("chair-2"));
  // A text that now sorts after the other's takes the other number.
  await push(salon.key, diaryText([{ ...one(mara, "k"), summary: "Tint, root" }, one(wren, "k")]), "chair-2");
  await push(salon.key, diaryText([one(wren, "k"), { ...one(mara, "k"), more: ["CLASS:PRIVATE"] }]), "chair-2");
  expect((await standing(salon)).filter((each) => each.endsWith("chair-2"))).toEqual(mine);
});

test("a visit that gets another service in front, or loses its first one, stays the visit it was", async () => {
  const salon = await createSalon({
    ...MINIMAL,
    services: [
      { name: "Lightening", words: ["bleach"] },
      { name: "Colour", words: ["root tint"] },
    ],
  });
  const until = (time: string) => [`DTEND;TZID=Europe/London:20261211T${time}`];
  const tint = { ...mara, more: until("113000") };
  const bleach = { ...mara, uid: "b0", start: at("11", "093000"), summary: "Bleach", more: until("103000") };
  await pushed(salon, [tint, wren]);
  await pushed(salon, [bleach, tint, wren]);
  expect(await standing(salon)).toEqual(["b1 12-11T09:30 main", "b2 12-18T10:30 main"]);
  await pushed(salon, [tint, wren]);
  expect(await standing(salon)).toEqual(["b1 12-11T10:30 main", "b2 12-18T10:30 main"]);
});

test("a visit keeps its identity and its records when an appointment is set before it while the next one is booked", async () => {
  const salon = await createSalon();
  const balayage: EntryText = { uid: "b1", start: at("11"), ...MARA, summary: "Balayage" };
  await pushed(salon, [balayage, wren]);
  await record(salon.key, { booking: "b1", kind: "applied", route: "in-salon", at: "2026-12-01T08:00:00Z" });
  const root: EntryText = { uid: "b0", start: at("11", "100000"), ...MARA };
  const report = await pushed(salon, [root, balayage, { uid: "b9", start: at("30"), ...MARA }, wren]);
  expect(report.counts).toMatchObject({ added: 1, vanished: 0, lost: 0, unclear: 0 });
  expect(await standing(salon)).toEqual(["b1 12-11T10:00 main", "b2 12-18T10:30 main", "b9 12-30T10:30 main"]);
  const [plan] = await plansOf(salon.key);
  expect(plan?.steps.find(({ kind }) => kind === "application")?.state).toBe("done");
});

test("two visits drawn together go on as the one of which something was told, and nothing is lost", async () => {
  const salon = await createSalon();
  const balayage: EntryText = { uid: "b1", start: at("11", "140000"), ...MARA, summary: "Balayage" };
  await pushed(salon, [{ uid: "b0", start: at("11", "090000"), ...MARA }, balayage, wren]);
  await record(salon.key, { booking: "b1", kind: "applied", route: "in-salon", at: "2026-12-01T08:00:00Z" });
  for (const summary of ["Root tint", "Root tint, grey"]) {
    const report = await pushed(salon, [{ uid: "b0", start: at("11", "133000"), ...MARA, summary }, balayage, wren]);
    expect(report.counts).toMatchObject({ added: 0, lost: 0 });
    expect(await standing(salon)).toEqual(["b1 12-11T13:30 main", "b2 12-18T10:30 main"]);
  }
  const plan = (await plansOf(salon.key)).find(({ booking }) => booking.uid === "b1");
  expect(plan?.steps.find(({ kind }) => kind === "application")?.state).toBe("done");
});

test("a visit known by its second entry stays one when all of it changes chairs, and when it is parted again", async () => {
  const salon = await createSalon();
  const balayage: EntryText = { uid: "b1", start: at("11"), ...MARA, summary: "Balayage" };
  const root: EntryText = { uid: "b0", start: at("11", "100000"), ...MARA };
  const other: EntryText = { ...wren, uid: "b3" };
  await pushed(salon, [balayage, wren]);
  await pushed(salon, [other], "second");
  await pushed(salon, [root, balayage, wren]);
  await pushed(salon, [root, balayage, other], "second");
  await pushed(salon, [wren]);
  expect(await standing(salon)).toContain("b1 12-11T10:00 second");
  await pushed(salon, [{ ...root, start: at("21") }, balayage, other], "second");
  expect(await standing(salon)).toContain("b1 12-11T10:30 second");
});
