/** The pages of the health questions as a browser without script meets them: plain forms, redirects, words. */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { linkOf, plansOf, record, send, setClock } from "./client.ts";
import { answer, answersTo, askClient, getQuestions, press, recordsOf, screeningsOf } from "./questionnaire.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const EMERGENCY =
  "call 999 now and say anaphylaxis. Lie down; sit up if breathing is hard. Do not stand or walk. Use your adrenaline pen if you have one. Do not wait for the salon.";
const open = async (address: string): Promise<string> => {
  const shown = await send(address, { headers: { accept: "text/html" } });
  expect([shown.status, shown.headers.get("cache-control")]).toEqual([200, "private, no-store"]);
  const html = await shown.text();
  expect(html).toContain(EMERGENCY);
  expect(html).not.toMatch(/\bsafe|<script|guarantee/i);
  return html.replaceAll("&#39;", "'").replaceAll("&quot;", '"');
};
const fieldsOf = async (
  page: string,
  given: Readonly<Record<string, string>> = {},
  name = (id: string) => `answers.${id}`,
): Promise<Record<string, string>> => {
  const asked = await getQuestions(page);
  const answers = Object.entries(answersTo(asked, given)).map(([id, told]) => [name(id), told]);
  return { version: String(asked.version), consent: "true", booking: "b1", ...Object.fromEntries(answers) };
};
const count = (html: string, what: RegExp): number => [...html.matchAll(what)].length;

test("the page says for which appointment it asks, asks everything, and chooses nothing beforehand", async () => {
  const { page } = await askClient();
  const html = await open(`${page}/screening`);
  expect(html).toContain("<h2>Questions before your colour on Fri 11 Dec 2026, 10:30</h2>");
  expect(html.indexOf(EMERGENCY)).toBeLessThan(html.indexOf("<h2>"));
  expect([count(html, /<fieldset/g), count(html, /type="radio"/g), count(html, /\schecked/g)]).toEqual([8, 24, 0]);
  const { questions, consent } = await getQuestions(page);
  for (const { text, source } of questions) {
    expect(html).toContain(text);
    expect(html).toContain(source);
  }
  expect(html).toContain(consent);
  expect(html).toContain("What happens with your answers");
  expect(html).toContain('href="tel:01632960155"');
});

test("a form sent whole comes back to the page, which says when it was answered and what came of it", async () => {
  const { key, page } = await askClient();
  const path = new URL(page).pathname;
  const sent = await press(`${page}/screening`, await fieldsOf(page));
  expect([sent.status, sent.headers.get("location")]).toEqual([303, `${path}/screening`]);
  const html = await open(`${page}/screening`);
  expect(html).toContain("You answered on Tue 1 Dec 2026, 09:00. Your answers are with the salon.");
  expect(html).toContain("<summary>Has something changed? Answer again</summary>");
  expect(count(html, /\schecked/g)).toBe(0);
  setClock("2026-12-01T09:05:00Z");
  const brackets = await fieldsOf(page, { tattoo: "yes" }, (id) => `answers[${id}]`);
  expect((await press(`${page}/screening`, { ...brackets, consent: "on" })).status).toBe(303);
  expect(await open(`${page}/screening`)).toContain("a new skin test is needed before this appointment");
  expect((await screeningsOf(key)).map(({ outcome }) => outcome)).toEqual(["pass", "test-needed"]);
});

test("a form with gaps comes back with what was chosen, the gaps marked and named at the top, and nothing kept", async () => {
  const { key, page } = await askClient();
  const { "answers.scalp": _scalp, consent: _consent, ...fields } = await fieldsOf(page, { health: "not-sure" });
  const sent = await press(`${page}/screening`, fields);
  expect([sent.status, sent.headers.get("content-type")]).toEqual([422, "text/html; charset=UTF-8"]);
  expect(sent.headers.get("cache-control")).toBe("private, no-store");
  const html = await sent.text();
  expect(html).toContain(EMERGENCY);
  expect(html).toContain('<a href="#q-scalp-yes">Question 2 is not answered</a>');
  expect(html).toContain('<a href="#consent">You have not agreed that the salon keeps your answers.');
  expect(count(html, /<fieldset[^>]*aria-invalid="true"[^>]*aria-describedby="q-scalp-mark"/g)).toBe(1);
  expect(count(html, /aria-invalid="true"/g)).toBe(2);
  expect(count(html, /\schecked/g)).toBe(7);
  expect(html).toMatch(/id="q-health-not-sure"[^>]*checked/);
  expect(html).toContain('id="q-scalp-yes"');
  expect(html).toContain("Back to your page");
  expect([await screeningsOf(key), await recordsOf(key)]).toEqual([[], []]);
});

test("a form to questions that have changed meanwhile starts anew, and one with strange fields says so in plain words", async () => {
  const { page } = await askClient();
  const old = await press(`${page}/screening`, { ...(await fieldsOf(page)), version: "7" });
  const html = await old.text();
  expect([old.status, count(html, /\schecked/g)]).toEqual([409, 0]);
  expect(html).toContain("The salon has changed its questions since you opened this page.");
  const strange = await press(`${page}/screening`, { ...(await fieldsOf(page)), colour: "red" });
  expect([strange.status, (await strange.text()).includes("could not be understood")]).toEqual([422, true]);
  const twice = { ...(await fieldsOf(page)), "answers[scalp]": "yes" };
  const both = await press(`${page}/screening`, twice);
  expect([both.status, (await both.text()).includes("Question 2 is not answered")]).toEqual([422, true]);
});

test("under a stop the page says to telephone first, and asks nothing unless she opens it", async () => {
  const { key, page } = await askClient();
  await answer(page, { "past-reaction": "yes" });
  const html = await open(`${page}/screening`);
  expect(html).toContain("Please telephone Quillfen Colour Room about this appointment.");
  expect(html).toContain("please do not colour your hair and do not put a skin test on");
  expect(html).toContain("A person at the salon will look at it");
  expect(html).toContain("<summary>If the salon has asked you to answer again</summary>");
  const hers = await open(page);
  expect(hers).not.toContain("/screening");
  // What she told again beside the stop is kept all the same.
  expect((await press(`${page}/screening`, await fieldsOf(page))).status).toBe(303);
  expect(await screeningsOf(key)).toHaveLength(2);
});

test("with no appointment ahead the page says so, and a form sent then is not lost without a word", async () => {
  const { page } = await askClient();
  const fields = await fieldsOf(page);
  setClock("2026-12-11T11:00:00Z");
  const html = await open(`${page}/screening`);
  expect([html.includes("No appointment ahead"), html.includes("<form")]).toEqual([true, false]);
  const late = await press(`${page}/screening`, fields);
  expect([late.status, (await late.text()).includes("not ahead any more, so nothing was kept")]).toEqual([422, true]);
  const { booking: _booking, ...nameless } = fields;
  expect((await press(`${page}/screening`, nameless)).status).toBe(409);
});

test("her page leads to the questions first where they are next, for each appointment by an address without names", async () => {
  const { page } = await askClient([11, 14]);
  const html = await open(page);
  const links = [...html.matchAll(/href="([^"]*\/screening\?appointment=[0-9a-f-]{36})"/g)].map(
    ([, link]) => link ?? "",
  );
  expect(links).toHaveLength(2);
  const headline = html.indexOf("<h2>Answer the salon's questions by");
  expect(headline).toBeGreaterThan(0);
  expect(html.slice(headline).indexOf("Answer the questions")).toBeLessThan(
    html.slice(headline).indexOf("<p>The salon asks"),
  );
  expect(await open(links[1] ?? "")).toContain("Questions before your colour on Mon 14 Dec 2026, 10:30");
  const second = { ...(await fieldsOf(page)), booking: "b2" };
  const sent = await press(`${page}/screening`, second);
  expect(sent.headers.get("location")).toBe(new URL(links[1] ?? "").pathname + new URL(links[1] ?? "").search);
});

test("after a not-sure her page waits for the salon, asks nothing again, and lets her answer anew", async () => {
  const { key, page } = await askClient();
  await answer(page, { elsewhere: "not-sure" });
  setClock("2026-12-02T09:00:00Z");
  const html = await open(page);
  expect(html).toContain("<h2>The salon is looking at your answers</h2>");
  expect(html).toContain("telephone 01632 960 155");
  expect(html).toContain("Answer the questions again");
  expect(html).not.toContain("<h2>Answer the salon's questions");
  expect(html).toContain("Reported so far: questions answered.");
  expect(await open(`${page}/screening`)).toContain("a person at the salon looks at it first and decides");
  await record(key, { booking: "b1", kind: "screened", outcome: "pass", at: "2026-12-02T09:00:00Z", via: "desk" });
  expect(await open(page)).not.toContain("The salon is looking at your answers");
  expect(await open(`${page}/screening`)).toContain("The salon has recorded your answers for this appointment.");
});

test("after the salon has set a screening aside, the page asks again", async () => {
  const { key, page } = await askClient();
  await answer(page);
  await record(key, {
    booking: "b1",
    kind: "correction",
    reason: "asked anew",
    at: "2026-12-01T09:00:00Z",
    via: "desk",
  });
  const html = await open(`${page}/screening`);
  expect(html).toContain("You answered on Tue 1 Dec 2026, 09:00. The salon asks you to answer once more.");
  expect(html).not.toContain("<summary>Has something changed");
});

test("her page tells of kept answers only where she ever agreed, and a press takes the agreement back", async () => {
  const { key, page } = await askClient();
  expect(await open(page)).not.toContain("Your answers");
  await answer(page);
  const html = await open(page);
  expect(html).toContain("Answers of yours to the salon's questions have been kept since Tue 1 Dec 2026, 09:00.");
  expect(html).toContain("If you take your agreement back, your answers are deleted.");
  setClock("2026-12-02T09:00:00Z");
  const pressed = await press(`${page}/consent`, { consent: "false" });
  expect([pressed.status, pressed.headers.get("location")]).toEqual([303, new URL(page).pathname]);
  const after = await open(page);
  expect(after).toContain("You took your agreement back on Wed 2 Dec 2026, 09:00. None of your answers are kept.");
  expect(after).not.toContain("Take my agreement back");
  expect((await screeningsOf(key))[0]?.answers).toBeNull();
  const wrong = await press(`${page}/consent`, { consent: "maybe" });
  expect([wrong.status, (await wrong.text()).includes(EMERGENCY)]).toEqual([422, true]);
});

test("no answer stands in an address, a title or a feed, and an American salon's pages are in American English", async () => {
  const salon = await askClient([11], { language: "en-US" });
  const { key, page } = salon;
  const sent = await press(`${page}/screening`, await fieldsOf(page, { tattoo: "yes", health: "not-sure" }));
  expect(sent.headers.get("location")).not.toMatch(/not-sure|tattoo|yes/);
  const html = await open(`${page}/screening`);
  expect(html).toContain("<title>Questions, Quillfen Colour Room</title>");
  // The salon's name and British sources stay as they are written.
  const words = html.replaceAll("Quillfen Colour Room", "").replaceAll(/<em>.*?<\/em>/g, "");
  expect(words).not.toMatch(/colour/i);
  for (const feed of [salon.feed, `${page}/skin-test.ics`]) {
    expect(await (await send(feed)).text()).not.toMatch(/tattoo|person-decides|not sure of an answer/i);
  }
  const [plan] = await plansOf(key);
  expect(JSON.stringify(plan)).not.toMatch(/tattoo|medicine/i);
});

test("an old link's form is told that the link was replaced", async () => {
  const { key, client, page } = await askClient();
  const fields = await fieldsOf(page);
  await linkOf(key, client, true);
  for (const address of [`${page}/screening`, `${page}/consent`]) {
    const sent = await press(address, fields);
    expect([sent.status, (await sent.text()).includes("This link is no longer in use")]).toEqual([410, true]);
  }
});
