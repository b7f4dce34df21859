/** The salon's rules at the desk: seen, tried, saved; its key and its calendar's address renewed. */
import type { Context } from "hono";
import { Hono } from "hono";
import { hashKey, makeKey, makeLink, salonOfKey } from "../../../salon/link.ts";
import { type Settings, settingsSchema } from "../../../settings.ts";
import { originOf } from "../../env.ts";
import { SCRIPT_PAGE_HEADERS } from "../../layout.tsx";
import type { AnyFault } from "../../problems.ts";
import { check } from "../../readBody.ts";
import { type DeskService, goBack } from "../desk.ts";
import { deskFault } from "../deskFault.tsx";
import { openSession } from "../openSession.ts";
import { byField } from "./formFaults.ts";
import { NewKeyPage } from "./keys.tsx";
import { mergeTyped } from "./mergeTyped.ts";
import type { Outcome } from "./outcome.tsx";
import { refusedIn } from "./refusedIn.ts";
import { protocolsInWords } from "./protocolWords.ts";
import { type FormRead, settingsFrom, type Typed, typedOf } from "./rulesForm.ts";
import { RulesPage } from "./rulesPage.tsx";

type Desk = Context<DeskService>;

export const rulesRoutes = new Hono<DeskService>();

/** Fields of every form at the desk, and of this one's presses: none of the settings'. */
const NOT_SETTINGS: ReadonlySet<string> = new Set(["token", "once", "back", "version", "do"]);

export const typedIn = (fields: URLSearchParams): Typed =>
  new URLSearchParams([...fields].filter(([name]) => !NOT_SETTINGS.has(name)));

/** The address of the salon's own calendar. */
export const feedOf = (c: Desk): string => {
  const { salonId, head } = c.var.signed;
  const claim = { salon: salonId, holder: "salon-feed", generation: head.feedGeneration } as const;
  return `${originOf(c.env, c.req.raw)}/s/${makeLink(claim, c.env.LINK_SECRET)}/deadlines.ics`;
};

/** @param version of the settings that the form is filled with */
const showRules = (
  c: Desk,
  typed: Typed,
  own: Settings["protocols"],
  outcome: Outcome,
  version: number,
  status: 200 | 412 | 422,
): Response | Promise<Response> => {
  const faults = byField(outcome.kind === "refused" ? outcome.faults : []);
  const shown = { form: { typed, faults }, version, protocols: protocolsInWords(own), outcome, feed: feedOf(c) };
  return c.html(<RulesPage signed={c.var.signed} shown={shown} />, status, SCRIPT_PAGE_HEADERS);
};

rulesRoutes.get("/desk/rules", (c) => {
  const { settings, version } = c.var.signed.head;
  return showRules(c, typedOf(settings), settings.protocols, { kind: "nothing" }, version, 200);
});

rulesRoutes.post("/desk/rules", async (c) => {
  const { head } = c.var.signed;
  const { fields } = c.var.pressed;
  const typed = typedIn(fields);
  const version = Number(fields.get("version"));
  // A form that does not say what it was filled with would set aside whatever was saved meanwhile.
  if (!Number.isSafeInteger(version) || version < 1)
    return deskFault(c, { code: "no-such-settings", newest: head.version });
  const seen = await c.var.salon.settings(version);
  if (!seen.ok) return deskFault(c, seen.fault);
  if (seen.value.version !== head.version) return showMeanwhile(c, typed, seen.value.settings);
  const stored = seen.value.settings;
  const form = settingsFrom(typed, stored);
  const read = check(form.given, settingsSchema);
  if (!read.ok) return showRefused(c, typed, form, stored, read.fault);
  const { protocols } = read.value;
  const versions = [seen.value.version];
  if (fields.get("do") === "save") {
    const put = await c.var.salon.putSettings(read.value, versions);
    if (put.ok) return goBack(c, "rules-saved", "/desk/rules");
    if (put.fault.code === "settings-changed-meanwhile") return showMeanwhile(c, typed, stored);
    return showRefused(c, typed, form, { ...stored, protocols }, put.fault);
  }
  const tried = await c.var.salon.previewSettings(read.value, versions);
  if (tried.ok) {
    const outcome = { kind: "preview", preview: tried.value, settings: read.value } as const;
    return showRules(c, typed, protocols, outcome, seen.value.version, 200);
  }
  if (tried.fault.code === "settings-changed-meanwhile") return showMeanwhile(c, typed, stored);
  return showRefused(c, typed, form, { ...stored, protocols }, tried.fault);
});

const showRefused = (c: Desk, typed: Typed, form: FormRead, stored: Settings, fault: AnyFault) => {
  const outcome = { kind: "refused", faults: refusedIn(fault, form, typed) } as const;
  return showRules(c, typed, stored.protocols, outcome, c.var.signed.head.version, 422);
};

/** Somebody saved meanwhile. A press that was sent twice finds its own settings there, and all is said to be saved. */
const showMeanwhile = async (c: Desk, typed: Typed, seen: Settings): Promise<Response> => {
  const now = await c.var.salon.settings(null);
  if (!now.ok) return deskFault(c, now.fault);
  const { settings, version } = now.value;
  const meant = check(settingsFrom(typed, settings).given, settingsSchema);
  const isSaved = meant.ok && JSON.stringify(meant.value) === JSON.stringify(settings);
  if (isSaved && c.var.pressed.fields.get("do") === "save") return goBack(c, "rules-saved", "/desk/rules");
  const merged = mergeTyped(typed, typedOf(seen), typedOf(settings));
  return showRules(c, merged.typed, settings.protocols, { kind: "meanwhile", merged }, version, 412);
};

rulesRoutes.post("/desk/rules/feed", async (c) => {
  await c.var.salon.renewFeed();
  return goBack(c, "feed-renewed", "/desk/rules#keys");
});

rulesRoutes.post("/desk/rules/key", (c) => {
  const { salonId } = c.var.signed;
  const value = makeKey(salonId, c.env.LINK_SECRET);
  return c.html(<NewKeyPage signed={c.var.signed} value={value} />, 200, SCRIPT_PAGE_HEADERS);
});

rulesRoutes.post("/desk/rules/key/use", async (c) => {
  const { salonId } = c.var.signed;
  const key = c.var.pressed.fields.get("key") ?? "";
  if (salonOfKey(key, c.env.LINK_SECRET) !== salonId) {
    return deskFault(c, {
      status: 422,
      heading: "That is no key of this salon",
      text: "The key was left as it was. Make a new one under Rules, and press there.",
      back: "/desk/rules",
      backWords: "To the rules",
    });
  }
  await c.var.salon.renewKey(hashKey(key));
  openSession(c, salonId, key, false);
  return goBack(c, "key-renewed", "/desk/rules");
});
