/** Debian's Thunderbird on a screen of its own with its calendar open, steered by its remote control, and ended for certain. */
import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { Marionette } from "./Marionette.ts";
import { type Subscription, writeProfile } from "./thunderbirdProfile.ts";
import { openScreen, type VirtualScreen } from "./virtualScreen.ts";

const WIDTH = 1400;
const HEIGHT = 900;
/** `THUNDERBIRD` names another binary. */
const BINARY = process.env["THUNDERBIRD"] ?? "thunderbird";
const QUIT_TIMEOUT_MS = 15_000;

export class RunningThunderbird {
  static readonly width = WIDTH;
  static readonly height = HEIGHT;
  readonly profile: string;
  readonly #process: ChildProcess;
  readonly #screen: VirtualScreen;
  readonly #control: Marionette;

  private constructor(profile: string, child: ChildProcess, screen: VirtualScreen, control: Marionette) {
    this.profile = profile;
    this.#process = child;
    this.#screen = screen;
    this.#control = control;
  }

  /** `153.7.0esr` */
  static version(): string {
    return /[\d.]+(esr)?/.exec(execFileSync(BINARY, ["--version"], { encoding: "utf8" }))?.[0] ?? "unknown";
  }

  /** @param zone the clocks of the machine and of the calendar */
  static async start(zone: string, subscriptions: readonly Subscription[]): Promise<RunningThunderbird> {
    const profile = mkdtempSync(join(tmpdir(), "countback-thunderbird-"));
    writeProfile(profile, zone, subscriptions);
    const screen = await openScreen(WIDTH, HEIGHT);
    const child = spawn(
      BINARY,
      ["-profile", profile, "-no-remote", "-calendar", "-marionette", "-remote-allow-system-access"],
      // HOME: whatever else it keeps goes with the profile.
      { env: { ...process.env, DISPLAY: screen.display, HOME: profile, TZ: zone }, stdio: "ignore", detached: true },
    );
    try {
      return new RunningThunderbird(profile, child, screen, await Marionette.of(profile));
    } catch (error) {
      endGroup(child);
      screen.close();
      rmSync(profile, { recursive: true, force: true });
      throw error;
    }
  }

  run<Answer>(script: string, ...args: readonly unknown[]): Promise<Answer> {
    return this.#control.run<Answer>(script, ...args);
  }

  /** A picture of the whole screen, where `SCREENSHOTS` names a folder for it. */
  async picture(name: string): Promise<void> {
    const folder = process.env["SCREENSHOTS"];
    if (!folder) return;
    // What was asked for is drawn a moment later.
    await pause(1_500);
    this.#screen.picture(join(folder, `thunderbird-${name}.png`));
  }

  /** Ends it as its menu does, so that all of its calendar is on disk; what does not end is ended. */
  async quit(): Promise<void> {
    const ended = new Promise<void>((resolve) => this.#process.once("exit", () => resolve()));
    await this.#control.quit().catch(() => undefined);
    await Promise.race([ended, pause(QUIT_TIMEOUT_MS, undefined, { ref: false })]);
    endGroup(this.#process);
    this.#screen.close();
  }

  dropProfile(): void {
    rmSync(this.profile, { recursive: true, force: true });
  }
}

const endGroup = (child: ChildProcess): void => {
  try {
    if (child.pid !== undefined) process.kill(-child.pid, "SIGKILL");
  } catch {
    // It has ended already.
  }
};
