/** Stands between a calendar client and the service, passes everything on unchanged, and writes down what was asked and answered. */
import { createServer, type IncomingMessage, request, type Server, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";

export type Headers = Readonly<Record<string, string>>;

export interface Recorded {
  readonly method: string;
  /** With the link masked: it opens a client's page. */
  readonly path: string;
  /** As sent and in the order sent; names as the client spells them. */
  readonly headers: Headers;
  readonly status: number;
  readonly answer: Headers;
  readonly body: string;
}

const pairsOf = (raw: readonly string[]): Headers =>
  Object.fromEntries(raw.flatMap((name, index) => (index % 2 === 0 ? [[name, raw[index + 1] ?? ""]] : [])));

/** `/c/{link}/skin-test.ics` */
export const maskLink = (path: string): string => path.replace(/^\/([cs])\/[^/?]+/, "/$1/{link}");

export class RecordingProxy {
  readonly #server: Server;
  readonly #recorded: Recorded[] = [];

  private constructor(target: URL) {
    this.#server = createServer((asked, answer) => this.#pass(target, asked, answer));
  }

  /** Listens on a port of this machine that the system chooses. */
  static async before(origin: string): Promise<RecordingProxy> {
    const proxy = new RecordingProxy(new URL(origin));
    await new Promise<void>((resolve, reject) => {
      proxy.#server.once("error", reject);
      proxy.#server.listen(0, "127.0.0.1", resolve);
    });
    return proxy;
  }

  get origin(): string {
    return `http://127.0.0.1:${(this.#server.address() as AddressInfo).port}`;
  }

  get recorded(): readonly Recorded[] {
    return this.#recorded;
  }

  /** The same address, asked for through here. */
  through(address: string): string {
    const { pathname, search } = new URL(address);
    return `${this.origin}${pathname}${search}`;
  }

  close(): void {
    this.#server.close();
    this.#server.closeAllConnections();
  }

  #pass(target: URL, asked: IncomingMessage, answer: ServerResponse): void {
    const { method = "GET", url = "/" } = asked;
    const onward = request(
      { host: target.hostname, port: target.port, method, path: url, headers: { ...asked.headers, host: target.host } },
      (come) => {
        const status = come.statusCode ?? 0;
        answer.writeHead(status, come.rawHeaders);
        const chunks: Buffer[] = [];
        come.on("data", (chunk: Buffer) => chunks.push(chunk));
        come.on("end", () =>
          this.#recorded.push({
            method,
            path: maskLink(url),
            headers: pairsOf(asked.rawHeaders),
            status,
            answer: pairsOf(come.rawHeaders),
            body: Buffer.concat(chunks).toString("utf8"),
          }),
        );
        come.pipe(answer);
      },
    );
    onward.on("error", (error) => {
      this.#recorded.push({
        method,
        path: maskLink(url),
        headers: pairsOf(asked.rawHeaders),
        status: 502,
        answer: {},
        body: error.message,
      });
      answer.writeHead(502).end();
    });
    asked.pipe(onward);
  }
}
