/** The salon's own pages: signing in and out, and the pages themselves, each in a file of its own. */
import { Hono } from "hono";
import { deleteCookie, setCookie } from "hono/cookie";
import { KEPT_SIGNED_IN_DAYS } from "../../bounds.ts";
import { hashKey, salonOfKey } from "../../salon/link.ts";
import { DAY_SECONDS } from "../../time/instant.ts";
import { salonNamed } from "../env.ts";
import { PAGE_HEADERS } from "../layout.tsx";
import { clientDeskRoutes } from "./clientDeskRoutes.tsx";
import { clientKeptRoutes } from "./clientKeptRoutes.tsx";
import { bookingRoute } from "./bookingRoute.tsx";
import { clientListRoutes } from "./clientListRoutes.tsx";
import { DESK_SCRIPT } from "./deskScript.ts";
import { DESK_STYLES } from "./deskStyles.ts";
import { type DeskService, goBack, localPath } from "./desk.ts";
import { firstVisitRoutes } from "./first/firstVisitRoutes.tsx";
import { newSalonRoutes } from "./first/newSalonRoutes.tsx";
import { ofDesk, SOUGHT_COOKIE, SOUGHT_PATH } from "./deskCookie.ts";
import { deskFault } from "./deskFault.tsx";
import { deskEvidenceRoutes } from "./deskEvidenceRoutes.tsx";
import { diaryRoutes } from "./diaryRoutes.tsx";
import { earliestRoutes } from "./earliestRoutes.tsx";
import { entryRoutes } from "./entryRoutes.tsx";
import { importRoutes } from "./importRoutes.tsx";
import { logRoutes } from "./logRoutes.tsx";
import { openSession } from "./openSession.ts";
import { readPlain } from "./readPressed.ts";
import { rulesRoutes } from "./rules/rulesRoutes.tsx";
import { isOwnForm, SESSION_COOKIE, signedIn, WHO_COOKIE, whoTyped } from "./signedIn.ts";
import { SignInPage } from "./signIn.tsx";
import { todayRoutes } from "./todayRoutes.tsx";
import { weeksRoutes } from "./weeksRoutes.tsx";

export const deskRoutes = new Hono<DeskService>();

const KEPT_LONG = { "cache-control": "public, max-age=31536000, immutable", "x-content-type-options": "nosniff" };

deskRoutes.get("/desk.css", (c) =>
  c.body(DESK_STYLES, 200, { ...KEPT_LONG, "content-type": "text/css; charset=utf-8" }),
);
deskRoutes.get("/desk.js", (c) =>
  c.body(DESK_SCRIPT, 200, { ...KEPT_LONG, "content-type": "text/javascript; charset=utf-8" }),
);

deskRoutes.get("/desk/sign-in", (c) =>
  c.html(<SignInPage to={localPath(c.req.query("to"))} fault={null} />, 200, PAGE_HEADERS),
);

deskRoutes.post("/desk/sign-in", async (c) => {
  const pressed = await readPlain(c.req.raw);
  if (!pressed.ok) return deskFault(c, pressed.fault);
  const { fields } = pressed.value;
  const to = localPath(fields.get("to"));
  const key = (fields.get("key") ?? "").trim();
  const id = salonOfKey(key, c.env.LINK_SECRET);
  const isOpen = id !== undefined && isOwnForm(c) && (await salonNamed(c.env, id).holdsKey(hashKey(key)));
  if (!isOpen) {
    const fault = "That key opens no salon here. Copy the whole key as it was shown, without spaces around it.";
    return c.html(<SignInPage to={to} fault={fault} />, 401, {
      ...PAGE_HEADERS,
      "www-authenticate": 'Bearer realm="countback"',
    });
  }
  openSession(c, id, key, fields.get("keep") === "yes");
  return c.redirect(to, 303);
});

deskRoutes.route("/", newSalonRoutes);

// Hono takes `/desk/*` to be `/desk` too. What is registered above this line needs no one signed in.
deskRoutes.use("/desk/*", signedIn);

deskRoutes.post("/desk/sign-out", (c) => {
  deleteCookie(c, SESSION_COOKIE, ofDesk(c));
  deleteCookie(c, SOUGHT_COOKIE, { ...ofDesk(c), path: SOUGHT_PATH });
  return c.redirect("/desk/sign-in", 303);
});

deskRoutes.post("/desk/who", (c) => {
  const name = whoTyped(c.var.pressed.fields.get("who") ?? "");
  setCookie(c, WHO_COOKIE, name, { ...ofDesk(c), maxAge: KEPT_SIGNED_IN_DAYS * DAY_SECONDS });
  return goBack(c, "who");
});

deskRoutes.route("/", todayRoutes);
deskRoutes.route("/", weeksRoutes);
deskRoutes.route("/", bookingRoute);
deskRoutes.route("/", clientListRoutes);
deskRoutes.route("/", clientDeskRoutes);
deskRoutes.route("/", clientKeptRoutes);
deskRoutes.route("/", diaryRoutes);
deskRoutes.route("/", entryRoutes);
deskRoutes.route("/", earliestRoutes);
deskRoutes.route("/", deskEvidenceRoutes);
deskRoutes.route("/", logRoutes);
deskRoutes.route("/", importRoutes);
deskRoutes.route("/", rulesRoutes);
deskRoutes.route("/", firstVisitRoutes);
