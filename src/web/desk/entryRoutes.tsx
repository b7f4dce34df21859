/** The desk's entries: listed by what they were taken for, answered, and answers taken back. */
import { type Context, Hono } from "hono";
import { type EntryAnswer } from "../../diary/answers.ts";
import { type EntryShown } from "../../salon/entries.ts";
import { entriesQuery, entryAnswer } from "../doors.ts";
import { SCRIPT_PAGE_HEADERS } from "../layout.tsx";
import { check } from "../readBody.ts";
import { AnswerPage } from "./answerPage.tsx";
import { type DeskService, goBack, localPath } from "./desk.ts";
import { deskFault } from "./deskFault.tsx";
import { diaryNamed } from "./diaryRef.ts";
import { ANSWER_LABELS } from "./entryItem.tsx";
import { type EntryList, EntryPage } from "./entryPage.tsx";
import { type Refused, refusedFields } from "./readFields.ts";
import { sayFault } from "./sayFault.ts";

export const entryRoutes = new Hono<DeskService>();

/** Entries of one page: what is answered in one sitting. */
const ROWS = 50;
const ANSWERS = 100;

entryRoutes.get("/desk/entries", (c) => entryPage(c, new URL(c.req.url), null));

/** What an address of the list asks for; what makes no sense there is left out. */
const listAt = async (c: Context<DeskService>, { searchParams }: URL): Promise<EntryList> => {
  const known = c.var.signed.head.settings.diaries.map(({ name }) => name);
  const diary = diaryNamed(known, searchParams.get("diary") ?? "") ?? null;
  const read = check({ state: searchParams.get("state"), after: searchParams.get("after") }, entriesQuery);
  const { state, after } = read.ok ? read.value : { state: null, after: null };
  const choice = { state: state ?? "unsorted", diary, after, limit: ROWS } as const;
  const [listed, counts] = await Promise.all([c.var.salon.entries(choice), c.var.salon.entryCounts(diary)]);
  const found = listed.ok ? listed.value : { entries: [], next: null };
  return { state: choice.state, diary, counts, ...found };
};

const entryPage = async (
  c: Context<DeskService>,
  address: URL,
  refused: { readonly id: string; readonly answer: Refused } | null,
): Promise<Response> => {
  const list = await listAt(c, address);
  const was = address.searchParams.get("was");
  const answered = was === null ? null : await answerOf(c, was);
  address.searchParams.delete("was");
  address.searchParams.delete("said");
  const signed = { ...c.var.signed, here: `${address.pathname}${address.search}` };
  // What was answered says more than that it was kept.
  const said = answered === null ? signed.said : null;
  const page = <EntryPage signed={{ ...signed, said }} list={list} answered={answered} refused={refused} />;
  return c.html(page, refused === null ? 200 : 422, SCRIPT_PAGE_HEADERS);
};

const answerOf = async (c: Context<DeskService>, id: string): Promise<EntryAnswer | null> =>
  (await c.var.salon.answersGiven()).find((answer) => answer.id === id) ?? null;

const backOf = (c: Context<DeskService>): string => {
  const { pathname, search } = listOf(c);
  return `${pathname}${search}`;
};

/** The list that a form came from. */
const listOf = (c: Context<DeskService>): URL => {
  const url = new URL(localPath(c.var.pressed.fields.get("back")), "http://desk");
  if (url.pathname !== "/desk/entries") url.href = "http://desk/desk/entries";
  url.hash = "";
  return url;
};

entryRoutes.post("/desk/entries/:id", async (c) => {
  const id = c.req.param("id");
  const { fields } = c.var.pressed;
  const filled = (name: string): string | undefined => fields.get(name)?.trim() || undefined;
  const client = { name: filled("client.name"), email: filled("client.email"), phone: filled("client.phone") };
  const isNamed = Object.values(client).some((each) => each !== undefined);
  const given = {
    as: fields.get("as"),
    service: fields.get("as") === "booking" ? filled("service") : undefined,
    client: isNamed && fields.get("as") !== "not-colour" ? client : undefined,
  };
  const refuse = (errors: readonly { readonly at: string; readonly text: string }[]): Promise<Response> => {
    const answer = refusedFields(fields, errors.map(ofForm), ANSWER_LABELS);
    return entryPage(c, listOf(c), { id, answer });
  };
  const read = check(JSON.parse(JSON.stringify(given)), entryAnswer);
  if (!read.ok) return read.fault.code === "request-refused" ? refuse(read.fault.errors) : deskFault(c, read.fault);
  const before = await listAt(c, listOf(c));
  const answered = await c.var.salon.answerEntry(id, read.value);
  if (!answered.ok) {
    const { fault } = answered;
    return fault.code === "entry-answer-refused" ? refuse(fault.refusals) : sayFault(c, fault, backOf(c));
  }
  const list = listOf(c);
  list.searchParams.set("was", id);
  const next = nextAfter(before.entries, id, (await listAt(c, list)).entries);
  return goBack(c, "answered", `${list.pathname}${list.search}${next === null ? "" : `#e-${next}`}`);
});

/** Of the entries that stood behind this one, the first that still stands in the list: it comes into view next. */
const nextAfter = (before: readonly EntryShown[], id: string, now: readonly EntryShown[]): string | null => {
  const place = before.findIndex((entry) => entry.id === id);
  const left = new Set(now.map((entry) => entry.id));
  const behind = place < 0 ? [] : before.slice(place + 1);
  return behind.find((entry) => left.has(entry.id))?.id ?? null;
};

/** The salon's word for whose it is has one field in the form. */
const ofForm = ({ at, text }: { readonly at: string; readonly text: string }): { at: string; text: string } => {
  if (at === "client")
    return { at: "client.name", text: "Whose it is does not stand in the entry for certain: write the client's name." };
  if (at === "service") return { at, text: "Choose a colour service: the entry's words do not say which it is." };
  return { at, text };
};

entryRoutes.post("/desk/entries/:id/forget", async (c) => {
  const forgotten = await c.var.salon.takeBackAnswer(c.req.param("id"));
  return forgotten.ok ? goBack(c, "answer-gone") : sayFault(c, forgotten.fault, backOf(c));
});

entryRoutes.get("/desk/answers", async (c) => {
  const asked = Number(c.req.query("from") ?? 0);
  const from = Number.isSafeInteger(asked) && asked > 0 ? asked : 0;
  const answers = await c.var.salon.answersGiven();
  return c.html(
    <AnswerPage signed={c.var.signed} answers={answers} from={from} size={ANSWERS} />,
    200,
    SCRIPT_PAGE_HEADERS,
  );
});
