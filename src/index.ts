/** Entry of the Worker: the HTTP face and the salon's Durable Object. */
import { app } from "./web/app.ts";

export { Salon } from "./salon/salon.ts";
export default app;
