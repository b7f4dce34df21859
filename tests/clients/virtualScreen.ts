/** A screen that nobody looks at: Xvfb on a number it chooses itself, and pictures of the whole of it by ImageMagick. */
import { type ChildProcess, execFileSync, spawn } from "node:child_process";

export interface VirtualScreen {
  /** `:7` */
  readonly display: string;
  readonly picture: (path: string) => void;
  readonly close: () => void;
}

const displayOf = (server: ChildProcess): Promise<string> =>
  new Promise((resolve, reject) => {
    server.stdout?.once("data", (chunk: Buffer) => resolve(`:${chunk.toString().trim()}`));
    server.once("error", reject);
    server.once("exit", () => reject(new Error("Xvfb ended before it showed anything")));
  });

export const openScreen = async (width: number, height: number): Promise<VirtualScreen> => {
  const size = ["-screen", "0", `${width}x${height}x24`];
  const server = spawn("Xvfb", ["-displayfd", "1", ...size, "-nolisten", "tcp"], {
    stdio: ["ignore", "pipe", "ignore"],
  });
  const display = await displayOf(server);
  return {
    display,
    picture: (path) => {
      execFileSync("import", ["-display", display, "-window", "root", path]);
    },
    close: () => {
      server.kill("SIGTERM");
    },
  };
};
