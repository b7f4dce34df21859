/** The service's HTTP face: what is answered to whom. Holds no state and asks the salons for everything. */
import { Hono } from "hono";
import { version } from "../../package.json";
import { clientRoutes } from "./clientRoutes.tsx";
import { clientsRoutes } from "./clientsRoutes.ts";
import { countBackFile } from "./countBackFile.ts";
import { countBackRoute } from "./countBackRoute.ts";
import { missingSecrets, type Service } from "./env.ts";
import { deskRoutes } from "./desk/deskRoutes.tsx";
import { evidenceRoute } from "./evidenceRoute.tsx";
import { failedPage, noSuchPage } from "./failedPage.tsx";
import { feedRoutes } from "./feedRoutes.ts";
import { frontDoor } from "./frontDoor.tsx";
import { privacyRoute } from "./privacyRoute.tsx";
import { problem } from "./problems.ts";
import { nothingHere } from "./refuseLink.tsx";
import { salonRoutes } from "./salonRoutes.ts";
import { screeningRoutes } from "./screeningRoutes.tsx";
import { toHttps } from "./toHttps.ts";

export const app = new Hono<Service>();

app.use(async (c, next) => {
  const missing = missingSecrets(c.env);
  return missing.length > 0 ? problem({ code: "no-secrets", missing }) : next();
});

app.use(toHttps);

app.use("/api/*", async (c, next) => {
  await next();
  c.res.headers.set("cache-control", "no-store");
});

// Calendars' robots must be let in; that nothing is indexed is said by each answer.
app.get("/robots.txt", (c) => c.text("User-agent: *\nAllow: /\n"));
app.get("/healthz", (c) => c.json({ status: "ok", version }, 200, { "cache-control": "no-store" }));
app.route("/", frontDoor);
app.route("/", countBackFile);
app.route("/", privacyRoute);
app.route("/", feedRoutes);
app.route("/", clientRoutes);
app.route("/", screeningRoutes);
app.route("/", deskRoutes);
app.route("/api", countBackRoute);
app.route("/api", salonRoutes);
app.route("/api", clientsRoutes);
app.route("/api", evidenceRoute);

/** Methods that a path takes, by asking the routes themselves. */
const methodsOf = (path: string): readonly string[] =>
  ["GET", "POST", "PUT", "DELETE"].filter((method) =>
    app.router.match(method, path)[0].some(([[, route]]) => route.method === method),
  );

app.notFound((c) => {
  const methods = methodsOf(c.req.path);
  if (methods.length === 0 || methods.includes(c.req.method)) return noSuchPage(c) ?? nothingHere(c);
  const allowed = methods.flatMap((method) => (method === "GET" ? ["GET", "HEAD"] : [method]));
  return problem({ code: "method-not-allowed", method: c.req.method, allowed });
});

app.onError((error, c) => {
  // Where it was, and not what was said: a message may quote what somebody wrote.
  const frames = (error.stack ?? "").split("\n").filter((line) => /^\s+at /.test(line));
  console.error([error.name, ...frames].join("\n"));
  // Readers of a feed keep what they have on a 503; some switch a calendar off on other failures.
  return failedPage(c) ?? problem({ code: c.req.path.endsWith(".ics") ? "feed-unavailable" : "unexpected" });
});
