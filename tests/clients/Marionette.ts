/**
 * Thunderbird's own remote control, Marionette: commands as JSON over a socket, each answer by its number.
 * Protocol 3: `{bytes}:[0, id, name, parameters]` there, `{bytes}:[1, id, error, result]` back.
 */
import { readFileSync } from "node:fs";
import { connect, type Socket } from "node:net";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";

interface Waiting {
  readonly resolve: (value: unknown) => void;
  readonly reject: (error: Error) => void;
}

const CONNECT_TIMEOUT_MS = 60_000;

/** Thunderbird writes the port it took into its profile. */
const portFrom = (profile: string): number => {
  try {
    return Number(readFileSync(join(profile, "MarionetteActivePort"), "utf8"));
  } catch {
    return 0;
  }
};

const openSocket = (port: number): Promise<Socket> =>
  new Promise((resolve, reject) => {
    const socket = connect(port, "127.0.0.1", () => resolve(socket));
    socket.once("error", reject);
  });

export class Marionette {
  readonly #socket: Socket;
  readonly #waiting = new Map<number, Waiting>();
  #rest = Buffer.alloc(0);
  #count = 0;

  private constructor(socket: Socket) {
    this.#socket = socket;
    socket.on("data", (chunk: Buffer) => this.#take(chunk));
    socket.on("close", () => {
      for (const { reject } of this.#waiting.values()) reject(new Error("Thunderbird closed its remote control"));
    });
    socket.on("error", () => socket.destroy());
  }

  /** Waits until Thunderbird listens, and begins a session that sees the program's own windows. */
  static async of(profile: string): Promise<Marionette> {
    const deadline = Date.now() + CONNECT_TIMEOUT_MS;
    while (portFrom(profile) === 0) {
      if (Date.now() > deadline) throw new Error(`Thunderbird did not listen within ${CONNECT_TIMEOUT_MS / 1000} s`);
      await pause(100);
    }
    const marionette = new Marionette(await openSocket(portFrom(profile)));
    await marionette.#send("WebDriver:NewSession", {});
    await marionette.#send("WebDriver:SetTimeouts", { script: 60_000 });
    await marionette.#send("Marionette:SetContext", { value: "chrome" });
    return marionette;
  }

  /** Runs a function's body in the main window; what it returns, or what its promise gives, comes back as JSON. */
  async run<Answer>(script: string, ...args: readonly unknown[]): Promise<Answer> {
    const body = `return (async function () { ${script} }).apply(null, arguments);`;
    const answer = await this.#send("WebDriver:ExecuteScript", { script: body, args, sandbox: "system" });
    return (answer as { value: Answer }).value;
  }

  /** Ends Thunderbird as its own menu does. */
  async quit(): Promise<void> {
    await this.#send("Marionette:Quit", { flags: ["eForceQuit"] });
    this.#socket.destroy();
  }

  #send(name: string, parameters: unknown): Promise<unknown> {
    const id = ++this.#count;
    const text = JSON.stringify([0, id, name, parameters]);
    return new Promise((resolve, reject) => {
      this.#waiting.set(id, { resolve, reject });
      this.#socket.write(`${Buffer.byteLength(text)}:${text}`);
    });
  }

  #take(chunk: Buffer): void {
    this.#rest = Buffer.concat([this.#rest, chunk]);
    for (;;) {
      const colon = this.#rest.indexOf(":");
      const length = Number(this.#rest.subarray(0, colon).toString());
      if (colon < 0 || this.#rest.length < colon + 1 + length) return;
      const text = this.#rest.subarray(colon + 1, colon + 1 + length).toString();
      this.#rest = this.#rest.subarray(colon + 1 + length);
      this.#answer(JSON.parse(text));
    }
  }

  /** The greeting, an object, is the one message that answers nothing. */
  #answer(message: unknown): void {
    if (!Array.isArray(message)) return;
    const [, id, error, result] = message as [number, number, { message: string } | null, unknown];
    const waiting = this.#waiting.get(id);
    this.#waiting.delete(id);
    if (error) waiting?.reject(new Error(`Thunderbird: ${error.message}`));
    else waiting?.resolve(result);
  }
}
