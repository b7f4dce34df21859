/** An upstream's body is read no longer and no farther than it may be, and the sender is then let go. */
import { expect, test } from "vitest";
import { boundBody } from "../../src/salon/boundBody.ts";

interface Upstream {
  readonly body: ReadableStream<Uint8Array>;
  readonly sent: () => number;
  readonly isCancelled: () => boolean;
}

/** Sends chunks for ever, one each `everyMs`. */
const endless = (chunkBytes: number, everyMs: number): Upstream => {
  let [sent, cancelled] = [0, false];
  const body = new ReadableStream<Uint8Array>(
    {
      async pull(controller) {
        await new Promise((resolve) => setTimeout(resolve, everyMs));
        if (cancelled) return;
        sent += chunkBytes;
        controller.enqueue(new Uint8Array(chunkBytes));
      },
      cancel() {
        cancelled = true;
      },
    },
    { highWaterMark: 0 },
  );
  return { body, sent: () => sent, isCancelled: () => cancelled };
};

const lengthOf = async (body: ReadableStream<Uint8Array>): Promise<number> => {
  let length = 0;
  for await (const chunk of body) length += chunk.byteLength;
  return length;
};

const never = new AbortController().signal;

test("a body that drips is broken off when its time is over", async () => {
  const upstream = endless(1, 20);
  const began = performance.now();
  await expect(lengthOf(boundBody(upstream.body, 1_000_000, AbortSignal.timeout(150)))).rejects.toThrow(
    "took too long",
  );
  expect(performance.now() - began).toBeLessThan(2_000);
  expect(upstream.isCancelled()).toBe(true);
});

test("a body that falls silent is broken off when its time is over", async () => {
  const silent = new ReadableStream<Uint8Array>({ pull: () => new Promise(() => {}) });
  await expect(lengthOf(boundBody(silent, 1_000, AbortSignal.timeout(50)))).rejects.toThrow("took too long");
  await expect(lengthOf(boundBody(endless(1, 0).body, 1_000, AbortSignal.abort()))).rejects.toThrow("took too long");
});

test("past its bound no more is asked for, and what was read shows that it was too much", async () => {
  const upstream = endless(1_000, 0);
  expect(await lengthOf(boundBody(upstream.body, 10_500, never))).toBe(11_000);
  expect(upstream.isCancelled()).toBe(true);
  expect(upstream.sent()).toBe(11_000);
});

test("a body within its bounds comes through whole, and is let go with its reader", async () => {
  const octets = new TextEncoder().encode("BEGIN:VCALENDAR");
  expect(await lengthOf(boundBody(new Blob([octets]).stream(), octets.length, never))).toBe(octets.length);
  expect(await lengthOf(boundBody(new Blob().stream(), 10, never))).toBe(0);
  const upstream = endless(10, 0);
  for await (const chunk of boundBody(upstream.body, 1_000_000, never)) if (chunk.byteLength > 0) break;
  expect(upstream.isCancelled()).toBe(true);
});

test("a sender that breaks off is a failure, and one that cannot be let go does no harm", async () => {
  const broken = new ReadableStream<Uint8Array>({
    pull(controller) {
      controller.enqueue(new Uint8Array(5));
      controller.error(new Error("reset"));
    },
  });
  await expect(lengthOf(boundBody(broken, 1_000, never))).rejects.toThrow("reset");
  const stubborn = new ReadableStream<Uint8Array>({
    pull: (controller) => controller.enqueue(new Uint8Array(100)),
    cancel: () => Promise.reject(new Error("will not")),
  });
  expect(await lengthOf(boundBody(stubborn, 50, never))).toBe(100);
});
