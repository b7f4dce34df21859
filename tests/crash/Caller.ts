/**
 * Asks the service as an integrator does, and tells apart what a kill makes of a request: answered, cut off (nobody knows
 * what became of it), or never sent. Never sends anything twice, as fetch may.
 */
import { Agent, type IncomingHttpHeaders, request } from "node:http";

export interface Answered {
  readonly kind: "answered";
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
}

export type Answer =
  | Answered
  /** `status`: of an answer that had begun; null where none had. */
  | { readonly kind: "cut"; readonly status: number | null }
  | { readonly kind: "unsent" };

export interface Sending {
  readonly key?: string;
  readonly json?: unknown;
  readonly calendar?: string;
  readonly headers?: Readonly<Record<string, string>>;
}

/** Nothing asked here takes a second; a service that is silent so long is broken. */
const SILENT_MS = 60_000;
const CONNECTIONS = 8;

export class Caller {
  readonly #port: number;
  #agent = new Agent({ keepAlive: true, maxSockets: CONNECTIONS });

  constructor(port: number) {
    this.#port = port;
  }

  /** @param path with its query; of an address, its path alone */
  ask(method: string, path: string, { key, json, calendar, headers = {} }: Sending = {}): Promise<Answer> {
    const body = calendar ?? (json === undefined ? undefined : JSON.stringify(json));
    const type = calendar === undefined ? "application/json" : "text/calendar";
    const all = {
      ...(key === undefined ? {} : { authorization: `Bearer ${key}` }),
      ...(body === undefined ? {} : { "content-type": type, "content-length": String(Buffer.byteLength(body)) }),
      ...headers,
    };
    const { promise, resolve, reject } = Promise.withResolvers<Answer>();
    let status: number | null = null;
    const host = { host: "127.0.0.1", port: this.#port, agent: this.#agent };
    const asking = request({ ...host, method, path, headers: all }, (answer) => {
      status = answer.statusCode ?? null;
      const chunks: Buffer[] = [];
      answer.on("data", (chunk: Buffer) => chunks.push(chunk));
      answer.on("error", () => resolve({ kind: "cut", status }));
      answer.on("close", () => {
        if (!answer.complete || status === null) return resolve({ kind: "cut", status });
        resolve({ kind: "answered", status, headers: answer.headers, body: Buffer.concat(chunks) });
      });
    });
    asking.setTimeout(SILENT_MS, () => reject(new Error(`${method} was not answered within ${SILENT_MS / 1000} s`)));
    asking.on("error", (error: NodeJS.ErrnoException) =>
      resolve(error.code === "ECONNREFUSED" ? { kind: "unsent" } : { kind: "cut", status }),
    );
    asking.end(body);
    return promise;
  }

  /** Forgets every connection: the process at their other end is gone. */
  drop(): void {
    this.#agent.destroy();
    this.#agent = new Agent({ keepAlive: true, maxSockets: CONNECTIONS });
  }
}

export const jsonOf = ({ body }: Answered): unknown => JSON.parse(body.toString("utf8"));
export const pathOf = (address: string): string => new URL(address).pathname;
