/** The desk's diaries: what was read, reading now, accepting what was held, a file, one more, one less. */
import { type Context, Hono } from "hono";
import * as z from "zod";
import { settingsSchema } from "../../settings.ts";
import { SCRIPT_PAGE_HEADERS } from "../layout.tsx";
import { check } from "../readBody.ts";
import { type DeskService, goBack } from "./desk.ts";
import { deskFault } from "./deskFault.tsx";
import { DIARY_LABELS, DiaryPage } from "./diaryPage.tsx";
import { readFields, type Refused, refusedFields } from "./readFields.ts";
import { sayFault } from "./sayFault.ts";

export const diaryRoutes = new Hono<DeskService>();

diaryRoutes.get("/desk/diaries", (c) => diaryPage(c, null));

const diaryPage = async (c: Context<DeskService>, refused: Refused | null): Promise<Response> => {
  const news = await c.var.salon.diaryNews();
  const page = <DiaryPage signed={c.var.signed} news={news} refused={refused} />;
  return c.html(page, refused === null ? 200 : 422, SCRIPT_PAGE_HEADERS);
};

diaryRoutes.post("/desk/diaries/refresh", async (c) => {
  await c.var.salon.refresh();
  return goBack(c, "diaries-read", "/desk/diaries");
});

const nameOf = (c: Context<DeskService>): string => c.var.pressed.fields.get("name") ?? "";

diaryRoutes.post("/desk/diaries/accept", async (c) => {
  // A page may have stood open while the diary was read again: what nobody has seen is not accepted by it.
  const since = Number(c.var.pressed.fields.get("since") ?? NaN);
  const accepted = await c.var.salon.confirmDiary(nameOf(c), since);
  return accepted.ok ? goBack(c, "diary-accepted") : sayFault(c, accepted.fault, "/desk/diaries");
});

diaryRoutes.post("/desk/diaries/drop", async (c) => {
  const dropped = await c.var.salon.dropDiary(nameOf(c));
  return dropped.ok ? goBack(c, "diary-dropped", "/desk/diaries") : sayFault(c, dropped.fault, "/desk/diaries");
});

diaryRoutes.post("/desk/diaries/push", async (c) => {
  const file = c.var.pressed.files.get("file");
  if (!file) {
    const words = { status: 422, heading: "No file was chosen", text: "Choose the diary's file (.ics), then read it." };
    return deskFault(c, { ...words, back: "/desk/diaries", backWords: "Back to the diaries" });
  }
  // A name that is not known would become a diary: on a page that stood open it may have been taken away.
  const { diaries } = c.var.signed.head.settings;
  if (!diaries.some(({ name }) => name === nameOf(c)))
    return sayFault(c, { code: "no-such-diary", known: diaries.map(({ name }) => name) }, "/desk/diaries");
  const body = new Response(file).body;
  if (!body) return deskFault(c, { code: "unexpected" });
  const pushed = await c.var.salon.pushDiary(nameOf(c), body);
  if (!pushed.ok) return sayFault(c, pushed.fault, "/desk/diaries");
  const { status } = pushed.value;
  return goBack(c, status === "held" ? "diary-held" : status === "refused" ? "diary-refused" : "diary-taken");
});

const newDiary = z.strictObject({
  // What is wrong with either, the settings' own door says.
  name: z.string().max(10_000).default(""),
  url: z.string().max(10_000).nullable().default(null),
});

/** One more diary, among the settings that hold: they are changed as a whole, and by nobody else meanwhile. */
diaryRoutes.post("/desk/diaries", async (c) => {
  const { fields } = c.var.pressed;
  const read = readFields(c.var.pressed, newDiary, DIARY_LABELS);
  if (!read.ok) return diaryPage(c, read.refused);
  const { settings, version } = c.var.signed.head;
  const name = read.value.name.trim();
  const refuse = (at: string, text: string): Promise<Response> =>
    diaryPage(c, refusedFields(fields, [{ at, text }], DIARY_LABELS));
  if (settings.diaries.some((diary) => diary.name === name)) {
    return refuse("name", "There is a diary of this name already; give this one another.");
  }
  const place = settings.diaries.length;
  const wanted = { ...settings, diaries: [...settings.diaries, { name, url: read.value.url?.trim() ?? null }] };
  const asked = check(wanted, settingsSchema);
  const put = asked.ok ? await c.var.salon.putSettings(asked.value, [version]) : asked;
  if (put.ok) return goBack(c, "diary-added", "/desk/diaries");
  const { fault } = put;
  if (fault.code === "diary-not-added")
    return refuse("name", "A salon keeps no more diaries than it has. Take one away first.");
  if (fault.code !== "request-refused" && fault.code !== "settings-refused") return deskFault(c, fault);
  const errors = fault.code === "request-refused" ? fault.errors : fault.refusals;
  const own = errors.map(({ at, text }) => {
    const field = at.replace(`diaries[${place}].`, "").replace(/^diaries\[\d+\]\./, "");
    return { at: field, text: text.startsWith(at) ? `${field}${text.slice(at.length)}` : text };
  });
  return diaryPage(c, refusedFields(fields, own, DIARY_LABELS));
});
