/**
 * What feed-service.ts runs in workerd: the product as it is deployed, and beside it a bare Hono that answers bytes held in
 * a Durable Object's memory, asked once a request. Deployed nowhere.
 *
 * Three ways lead to the held bytes, since none is the fastest by definition: the object's own `fetch`, a call that returns
 * text and a call that returns octets. The headers that never change belong to the code, as in the product: the object
 * is asked for the two that do.
 */
import { DurableObject } from "cloudflare:workers";
import { Hono } from "hono";
import { app } from "../../../src/web/app.ts";
import type { Env } from "../../../src/web/env.ts";

export { Salon } from "../../../src/salon/salon.ts";

type Fields = Readonly<Record<string, string>>;

/** An answer of the product to be given again; `fields` are the headers of its 200 and its 304. */
export interface Held {
  readonly name: string;
  readonly body: string;
  readonly full: Fields;
  readonly unchanged: Fields;
}

interface Asked<Body> {
  readonly etag: string;
  readonly modified: string;
  /** Null where the asker has it already. */
  readonly body: Body | null;
}

interface Kept {
  readonly etag: string;
  readonly modified: string;
  readonly text: string;
  readonly octets: Uint8Array<ArrayBuffer>;
  readonly full: Headers;
  readonly unchanged: Headers;
}

export class Bare extends DurableObject {
  readonly #kept = new Map<string, Kept>();

  hold({ name, body, full, unchanged }: Held): void {
    this.#kept.set(name, {
      etag: full["etag"] ?? "",
      modified: full["last-modified"] ?? "",
      text: body,
      octets: Uint8Array.from(new TextEncoder().encode(body)),
      full: new Headers(full),
      unchanged: new Headers(unchanged),
    });
  }

  text(name: string, noneMatch: string | undefined): Asked<string> {
    const { etag, modified, text } = this.#find(name);
    return { etag, modified, body: noneMatch === etag ? null : text };
  }

  octets(name: string, noneMatch: string | undefined): Asked<Uint8Array<ArrayBuffer>> {
    const { etag, modified, octets } = this.#find(name);
    return { etag, modified, body: noneMatch === etag ? null : octets };
  }

  override fetch(request: Request): Response {
    const { etag, octets, full, unchanged } = this.#find(request.url.slice(request.url.lastIndexOf("/") + 1));
    return request.headers.get("if-none-match") === etag
      ? new Response(null, { status: 304, headers: unchanged })
      : new Response(octets, { headers: full });
  }

  #find(name: string): Kept {
    const kept = this.#kept.get(name);
    if (!kept) throw new Error(`nothing is held under ${name}`);
    return kept;
  }
}

interface BareEnv {
  readonly BARE: DurableObjectNamespace<Bare>;
}

/** Headers that do not change, by the name they are held under. */
const fixed = new Map<string, { readonly full: Fields; readonly unchanged: Fields }>();

const bareOf = (env: BareEnv): DurableObjectStub<Bare> => env.BARE.get(env.BARE.idFromName("bare"));

const answer = (name: string, { etag, modified, body }: Asked<string | Uint8Array<ArrayBuffer>>): Response => {
  const fields = fixed.get(name);
  const headers = new Headers(body === null ? fields?.unchanged : fields?.full);
  headers.set("etag", etag);
  headers.set("last-modified", modified);
  return body === null ? new Response(null, { status: 304, headers }) : new Response(body, { headers });
};

const bare = new Hono<{ Bindings: BareEnv }>();

bare.put("/bare", async (c) => {
  const held = await c.req.json<Held>();
  const without = ({ etag: _etag, "last-modified": _modified, ...rest }: Fields): Fields => rest;
  fixed.set(held.name, { full: without(held.full), unchanged: without(held.unchanged) });
  await bareOf(c.env).hold(held);
  return c.body(null, 204);
});
bare.get("/bare/fetch/:name", (c) => bareOf(c.env).fetch(c.req.raw));
bare.get("/bare/text/:name", async (c) => {
  const name = c.req.param("name");
  return answer(name, await bareOf(c.env).text(name, c.req.header("if-none-match")));
});
bare.get("/bare/octets/:name", async (c) => {
  const name = c.req.param("name");
  return answer(name, await bareOf(c.env).octets(name, c.req.header("if-none-match")));
});

export default {
  fetch: (request: Request, env: Env & BareEnv, context: ExecutionContext) =>
    request.url.includes("/bare") ? bare.fetch(request, env, context) : app.fetch(request, env, context),
};
