/** Serves the demo salon's diaries over HTTP on this machine, with validators, as any calendar would. */
import { createHash } from "node:crypto";
import { createServer, type Server } from "node:http";
import type { Day } from "../time/instant.ts";
import { CHAIRS, demoDiary, type Stage } from "./demoDiaries.ts";

/** What is served now; the start command turns it from `before` to `now`. */
export interface DemoBook {
  anchors: readonly Day[];
  stage: Stage;
}

export const serveDemoDiaries = async (book: DemoBook, port: number): Promise<Server> => {
  const server = createServer((request, response) => {
    const chair = CHAIRS.find((name) => request.url === `/${name}.ics`);
    if (!chair) {
      response.writeHead(404).end();
      return;
    }
    const body = demoDiary(chair, book.anchors, book.stage);
    const etag = `"${createHash("sha256").update(body).digest("base64url").slice(0, 22)}"`;
    if (request.headers["if-none-match"] === etag) response.writeHead(304, { etag }).end();
    else response.writeHead(200, { etag, "content-type": "text/calendar; charset=utf-8" }).end(body);
  });
  await new Promise<void>((resolve, reject) => {
    server.once("error", (cause) => {
      const remedy = "set PORT so that it and the port after it are free";
      reject(new Error(`port ${port}, where the demo's diaries are to be served, cannot be had: ${remedy}`, { cause }));
    });
    server.listen(port, "127.0.0.1", resolve);
  });
  return server;
};
