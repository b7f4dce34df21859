/** Asks again and again whether something holds, for as long as it may take. */
import { setTimeout as pause } from "node:timers/promises";

const EVERY_MS = 200;

/** @returns whether it held in time; the check that follows says what did not */
export const until = async (holds: () => boolean | Promise<boolean>, withinMs: number): Promise<boolean> => {
  const deadline = Date.now() + withinMs;
  for (;;) {
    if (await holds()) return true;
    if (Date.now() > deadline) return false;
    await pause(EVERY_MS);
  }
};
