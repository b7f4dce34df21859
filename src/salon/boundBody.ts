/**
 * Reads what an upstream sends no longer than it may: the time runs on while a body drips, and past the bytes of the largest
 * diary nothing more is asked for. The sender is then let go, not drained. Looks at no content.
 */

/**
 * The body, which fails once `signal` aborts, and ends early after the chunk that takes it past `maxBytes`: whoever counts
 * sees that it was too much. It is read only as fast as it is asked for.
 */
export const boundBody = (
  body: ReadableStream<Uint8Array>,
  maxBytes: number,
  signal: AbortSignal,
): ReadableStream<Uint8Array> => {
  const reader = body.getReader();
  const letGo = (): void => void reader.cancel().catch(() => {});
  let bytes = 0;
  const { promise: overdue, reject } = Promise.withResolvers<never>();
  overdue.catch(() => {});
  const onAbort = (): void => reject(new Error("the answer took too long"));
  if (signal.aborted) onAbort();
  else signal.addEventListener("abort", onAbort, { once: true });
  const done = (): void => signal.removeEventListener("abort", onAbort);
  return new ReadableStream<Uint8Array>(
    {
      async pull(controller) {
        try {
          const { done: isEnd, value } = await Promise.race([reader.read(), overdue]);
          if (isEnd) {
            done();
            controller.close();
            return;
          }
          bytes += value.byteLength;
          controller.enqueue(value);
          if (bytes <= maxBytes) return;
          done();
          letGo();
          controller.close();
        } catch (error) {
          done();
          letGo();
          controller.error(error);
        }
      },
      cancel() {
        done();
        letGo();
      },
    },
    { highWaterMark: 0 },
  );
};
