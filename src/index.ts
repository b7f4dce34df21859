/** Entry of the Worker: the HTTP face and the salon's Durable Object. */
import { app } from "./web/app.ts";
import type { Env } from "./web/env.ts";
import { answerFeed } from "./web/feedRoutes.ts";

export { Salon } from "./salon/salon.ts";
export default {
  fetch: (request, env, context) => answerFeed(request, env) ?? app.fetch(request, env, context),
} satisfies ExportedHandler<Env>;
