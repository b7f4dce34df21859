/** Starts the whole service by the README's own command, in a folder and on ports of its own, and ends it. */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

export interface Started {
  /** All that it has printed. */
  readonly printed: () => string;
  readonly address: (label: string) => string;
  readonly process: ChildProcess;
  /** Sends what Ctrl-C sends, to the whole group as a terminal does, and waits until npm has ended. */
  readonly interrupt: () => Promise<void>;
}

export const newFolder = (): string => mkdtempSync(join(tmpdir(), "countback-"));
export const dropFolder = (folder: string): void => rmSync(folder, { recursive: true, force: true });

/** Resolves when every address has been printed. */
export const startService = async (port: number, folder: string): Promise<Started> => {
  const child = spawn("npm", ["start"], {
    env: {
      ...process.env,
      PORT: String(port),
      COUNTBACK_FOLDER: folder,
      OPERATOR_KEY: "operator-of-a-test",
      LINK_SECRET: "link-secret-of-a-test-0123456789",
    },
    detached: true,
    stdio: ["ignore", "pipe", "pipe"],
  });
  let text = "";
  child.stdout.on("data", (chunk: Buffer) => (text += chunk.toString()));
  child.stderr.on("data", (chunk: Buffer) => (text += chunk.toString()));
  const ended = new Promise<void>((resolve) => child.once("exit", () => resolve()));
  const isReady = async (): Promise<void> => {
    while (!text.includes("Ctrl-C ends it.")) {
      if (child.exitCode !== null) throw new Error(`the service ended before it was ready:\n${text}`);
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  };
  await isReady();
  return {
    printed: () => text,
    address: (label) => new RegExp(`${label}\\s+(http\\S+)`).exec(text)?.[1] ?? "",
    process: child,
    interrupt: () => {
      if (child.pid !== undefined) process.kill(-child.pid, "SIGINT");
      return ended;
    },
  };
};
