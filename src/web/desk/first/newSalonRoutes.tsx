/** The first visit before anybody is signed in: the operator's key makes a salon, and this screen is signed in to it. */
import { createHash, randomUUID } from "node:crypto";
import type { Context } from "hono";
import { Hono } from "hono";
import { hashKey, isSameSecret, makeKey, newSalonId } from "../../../salon/link.ts";
import { settingsSchema } from "../../../settings.ts";
import { originOf, salonNamed } from "../../env.ts";
import { PAGE_HEADERS, SCRIPT_PAGE_HEADERS } from "../../layout.tsx";
import { check } from "../../readBody.ts";
import type { DeskService, Signed } from "../desk.ts";
import { type DeskFault, deskFault } from "../deskFault.tsx";
import { openSession } from "../openSession.ts";
import { readPlain } from "../readPressed.ts";
import { byField, type FormFault } from "../rules/formFaults.ts";
import { settingsFrom, type Typed } from "../rules/rulesForm.ts";
import { refusedIn } from "../rules/refusedIn.ts";
import { formToken } from "../session.ts";
import { isOwnForm } from "../signedIn.ts";
import { KeyPage } from "./keyPage.tsx";
import { NewSalonPage, OPERATOR_FIELD } from "./newSalonPage.tsx";
import { isPass, makePass } from "./operatorPass.ts";

type Desk = Context<DeskService>;

export const newSalonRoutes = new Hono<DeskService>();

const secondsNow = (): number => Math.floor(Date.now() / 1000);

/** What a salon has that has said nothing yet: the test that needs no post. */
const DEFAULTS = settingsSchema.parse({
  name: "A salon",
  zone: "Europe/London",
  tests: [{ route: "in-salon", protocol: "salon-48h" }],
});

/** What is asked on this page, and must be said: none of it is taken from the defaults. */
const ASKED = ["name", "zone", "country", "contact.phone", "language"] as const;

const show = (
  c: Desk,
  typed: Typed,
  faults: readonly FormFault[],
  { once, pass, status }: { once: string; pass: string | null; status: 200 | 401 | 403 | 422 },
): Response | Promise<Response> => {
  const form = { typed, faults: byField(faults) };
  return c.html(<NewSalonPage shown={{ form, faults, once, pass }} />, status, PAGE_HEADERS);
};

newSalonRoutes.get("/desk/new", (c) => {
  const typed = new URLSearchParams({ language: DEFAULTS.language });
  return show(c, typed, [], { once: randomUUID(), pass: null, status: 200 });
});

/** The print of a form, as settings and keys know requests that come twice. */
const printOf = (text: string): string => createHash("sha256").update(text).digest("base64url");

newSalonRoutes.post("/desk/new", async (c) => {
  const pressed = await readPlain(c.req.raw);
  if (!pressed.ok) return deskFault(c, pressed.fault);
  const { fields } = pressed.value;
  const typed = new URLSearchParams(ASKED.map((name) => [name, fields.get(name) ?? ""]));
  const once = fields.get("once") || randomUUID();
  if (!isOwnForm(c)) {
    const text = "The form came from another page than this service's own. Look it over and press again.";
    return show(c, typed, [{ field: null, text }], { once, pass: null, status: 403 });
  }
  const now = secondsNow();
  const hasPass = isPass(fields.get("pass") ?? "", c.env, now);
  if (!hasPass && !isSameSecret((fields.get(OPERATOR_FIELD) ?? "").trim(), c.env.OPERATOR_KEY)) {
    const text =
      "That is not the operator's key of this service. Copy the whole of OPERATOR_KEY, without spaces around it.";
    return show(c, typed, [{ field: OPERATOR_FIELD, text }], { once, pass: null, status: 401 });
  }
  const form = settingsFrom(typed, DEFAULTS);
  const read = check(form.given, settingsSchema);
  const again = { once, pass: makePass(c.env, now), status: 422 } as const;
  if (!read.ok) return show(c, typed, refusedIn(read.fault, form, typed), again);
  // The key is not stored, so that the same form makes the same one again: a page that was lost on its way can be had once more.
  const repeated = { once: printOf(`first visit\n${once}`), secret: c.env.LINK_SECRET };
  const salonId = newSalonId(repeated);
  const key = makeKey(salonId, c.env.LINK_SECRET, repeated);
  const salon = salonNamed(c.env, salonId);
  const print = printOf(JSON.stringify(read.value));
  const made = await salon.create(salonId, originOf(c.env, c.req.raw), read.value, hashKey(key), print);
  if (!made.ok) {
    if (made.fault.code === "settings-refused") return show(c, typed, refusedIn(made.fault, form, typed), again);
    return deskFault(c, MADE_ALREADY);
  }
  const head = await salon.deskHead(hashKey(key));
  if (head === null) return deskFault(c, MADE_ALREADY);
  const token = formToken(openSession(c, salonId, key, false), c.env.LINK_SECRET);
  const signed: Signed = { salonId, token, who: null, head, here: "/desk/new/diary", said: null };
  return c.html(<KeyPage signed={signed} value={key} />, 200, SCRIPT_PAGE_HEADERS);
});

const MADE_ALREADY: DeskFault = {
  status: 409,
  heading: "This form has made a salon already",
  text: "Sign in with the key that was shown then. To make another salon, open the first visit anew.",
  back: "/desk/new",
  backWords: "Open the first visit anew",
};
