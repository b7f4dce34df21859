/** The first visit once the salon is made: its diary, what its titles mean, tests and hours, and its calendar. */
import type { Context } from "hono";
import { Hono } from "hono";
import { type Settings, settingsSchema } from "../../../settings.ts";
import { SCRIPT_PAGE_HEADERS } from "../../layout.tsx";
import { type AnyFault, wordsOf } from "../../problems.ts";
import { check } from "../../readBody.ts";
import { type DeskService, goBack } from "../desk.ts";
import { deskFault } from "../deskFault.tsx";
import { byField, type FormFault } from "../rules/formFaults.ts";
import { protocolsInWords } from "../rules/protocolWords.ts";
import { refusedIn } from "../rules/refusedIn.ts";
import { settingsFrom, type Typed, typedOf } from "../rules/rulesForm.ts";
import { feedOf, typedIn } from "../rules/rulesRoutes.tsx";
import { FirstDiaryPage } from "./diaryPage.tsx";
import { FirstFeedPage } from "./feedPage.tsx";
import { FirstTestsPage } from "./testsPage.tsx";
import { AS_SERVICE, TITLES_MAX } from "./titlesForm.tsx";
import { type Examples, SHOWN_STATES } from "./understood.tsx";

type Desk = Context<DeskService>;

export const firstVisitRoutes = new Hono<DeskService>();

/** Entries shown of each kind. */
const EXAMPLES_MAX = 3;

/** @param address as it was typed; null: what holds */
const showDiary = async (c: Desk, address: string | null, fault: string | null): Promise<Response> => {
  const { salon, signed } = c.var;
  const diary = signed.head.settings.diaries[0];
  const [reports, titles, lists] = await Promise.all([
    salon.reports(),
    salon.commonTitles(TITLES_MAX),
    Promise.all(
      SHOWN_STATES.map(async (state) => {
        const listed = await salon.entries({ state, diary: null, after: null, limit: EXAMPLES_MAX });
        return [state, listed.ok ? listed.value.entries : []] as const;
      }),
    ),
  ]);
  const shown = {
    report: reports.find(({ name }) => name === diary?.name) ?? null,
    examples: Object.fromEntries(lists) as unknown as Examples,
    titles,
    address: address ?? diary?.url ?? "",
    fault,
  };
  return c.html(<FirstDiaryPage signed={signed} shown={shown} />, fault === null ? 200 : 422, SCRIPT_PAGE_HEADERS);
};

firstVisitRoutes.get("/desk/new/diary", (c) => showDiary(c, null, null));

/** What is wrong with an address, in words that do not say it. */
const addressFault = (fault: AnyFault): string => {
  const { errors, detail } = wordsOf(fault);
  const [first] = errors ?? [];
  return first ? `The address ${first.text.replace(/^\S+ /, "")}` : detail;
};

/** The salon's only diary at another address; undefined where it has it already. */
const atAddress = async (c: Desk, url: string | null): Promise<AnyFault | undefined> => {
  const { settings, version } = c.var.signed.head;
  const [diary] = settings.diaries;
  if (diary?.url === url) return undefined;
  const read = check({ ...settings, diaries: [{ ...diary, url }] }, settingsSchema);
  if (!read.ok) return read.fault;
  const put = await c.var.salon.putSettings(read.value, [version]);
  return put.ok ? undefined : put.fault;
};

firstVisitRoutes.post("/desk/new/diary", async (c) => {
  const { fields, files } = c.var.pressed;
  const { diaries } = c.var.signed.head.settings;
  const [diary] = diaries;
  const address = (fields.get("address") ?? "").trim();
  const file = files.get("file");
  if (!diary || diaries.length > 1) return c.redirect("/desk/diaries", 303);
  const isNew = address !== "" && address !== diary.url;
  if (file && isNew)
    return showDiary(c, address, "Give the address or a file, not both: a diary is read from one place.");
  if (!file && address === "") return showDiary(c, "", "Give the address of the diary's feed, or choose a file.");
  const fault = await atAddress(c, file ? null : address);
  if (fault) return showDiary(c, address, addressFault(fault));
  if (!file) {
    await c.var.salon.refresh();
    return c.redirect("/desk/new/diary", 303);
  }
  const pushed = await c.var.salon.pushDiary(diary.name, file.stream());
  return pushed.ok ? c.redirect("/desk/new/diary", 303) : deskFault(c, pushed.fault);
});

/** The settings with these phrases among their words. */
const withWords = (settings: Settings, answers: readonly (readonly [phrase: string, as: string])[]): Settings => {
  const given = (wanted: string, words: readonly string[]): string[] => [
    ...new Set([...words, ...answers.filter(([, as]) => as === wanted).map(([phrase]) => phrase)]),
  ];
  return {
    ...settings,
    services: settings.services.map((service, index) => ({
      ...service,
      words: given(`service-${index}`, service.words),
    })),
    testWords: given("test", settings.testWords),
    notColour: given("not-colour", settings.notColour),
  };
};

firstVisitRoutes.post("/desk/new/words", async (c) => {
  const { fields } = c.var.pressed;
  const { settings } = c.var.signed.head;
  const answers = fields.getAll("as");
  const asked = new Map(fields.getAll("phrase").map((phrase, index) => [phrase, answers[index] ?? ""]));
  const titles = await c.var.salon.commonTitles(Number.MAX_SAFE_INTEGER);
  // Only what the diary says, and of what may be a name nothing that would hide her.
  const said = titles.flatMap(({ phrase, mayBeName }): (readonly [string, string])[] => {
    const as = asked.get(phrase) ?? "";
    const isOne = AS_SERVICE.test(as) || as === "test" || (as === "not-colour" && !mayBeName);
    return isOne ? [[phrase, as]] : [];
  });
  if (said.length === 0) return goBack(c, "words-none", "/desk/new/diary");
  const read = check(withWords(settings, said), settingsSchema);
  if (!read.ok) return deskFault(c, read.fault);
  const put = await c.var.salon.putSettings(read.value, [Number(fields.get("version"))]);
  return put.ok ? goBack(c, "words-kept", "/desk/new/diary") : deskFault(c, put.fault);
});

const showTests = (c: Desk, typed: Typed, settings: Settings, faults: readonly FormFault[]) => {
  const { signed } = c.var;
  const page = (
    <FirstTestsPage
      signed={signed}
      form={{ typed, faults: byField(faults) }}
      faults={faults}
      protocols={protocolsInWords(settings.protocols)}
      version={signed.head.version}
    />
  );
  return c.html(page, faults.length === 0 ? 200 : 422, SCRIPT_PAGE_HEADERS);
};

firstVisitRoutes.get("/desk/new/tests", (c) => {
  const { settings } = c.var.signed.head;
  return showTests(c, typedOf(settings), settings, []);
});

firstVisitRoutes.post("/desk/new/tests", async (c) => {
  const { settings } = c.var.signed.head;
  const typed = typedIn(c.var.pressed.fields);
  const form = settingsFrom(typed, settings);
  const read = check(form.given, settingsSchema);
  if (!read.ok) return showTests(c, typed, settings, refusedIn(read.fault, form, typed));
  const put = await c.var.salon.putSettings(read.value, [Number(c.var.pressed.fields.get("version"))]);
  if (put.ok) return c.redirect("/desk/new/feed", 303);
  return showTests(c, typed, settings, refusedIn(put.fault, form, typed));
});

firstVisitRoutes.get("/desk/new/feed", (c) =>
  c.html(<FirstFeedPage signed={c.var.signed} feed={feedOf(c)} />, 200, SCRIPT_PAGE_HEADERS),
);
