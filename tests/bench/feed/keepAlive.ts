/**
 * Asks one address over and over on a few connections that stay open, each waiting for its answer before it asks again.
 * Reads no more of an answer than its status and length, so that the asker takes as little of the machine as it can.
 */
import { connect, type Socket } from "node:net";

export interface Question {
  readonly path: string;
  readonly headers: Readonly<Record<string, string>>;
  /** The status that every answer must have. */
  readonly status: number;
}

export interface Answered {
  readonly answers: number;
  readonly seconds: number;
}

export interface Connections {
  /** Asks for so long, and once at least; an answer that has begun is waited for. */
  readonly ask: (question: Question, milliseconds: number) => Promise<Answered>;
  readonly close: () => void;
}

const HEAD_ENDS = Buffer.from("\r\n\r\n");
const CHUNKS_END = "0\r\n\r\n";

export const openConnections = async (origin: URL, count: number): Promise<Connections> => {
  const sockets = await Promise.all(Array.from({ length: count }, () => open(origin)));
  return {
    ask: async ({ path, headers, status }, milliseconds) => {
      const fields = Object.entries({ host: origin.host, ...headers }).map(([name, value]) => `${name}: ${value}\r\n`);
      const text = Buffer.from(`GET ${path} HTTP/1.1\r\n${fields.join("")}\r\n`);
      const began = performance.now();
      const counts = await Promise.all(
        sockets.map(async (socket) => {
          let answers = 0;
          for (; answers === 0 || performance.now() - began < milliseconds; answers++) {
            const got = await answerOf(socket, text);
            if (got !== status) throw new Error(`an answer was ${got}, not ${status}`);
          }
          return answers;
        }),
      );
      const seconds = (performance.now() - began) / 1000;
      return { answers: counts.reduce((sum, each) => sum + each, 0), seconds };
    },
    close: () => sockets.forEach((socket) => socket.destroy()),
  };
};

const open = (origin: URL): Promise<Socket> =>
  new Promise((resolve, reject) => {
    const socket = connect({ host: origin.hostname, port: Number(origin.port), noDelay: true });
    socket.once("connect", () => resolve(socket)).once("error", reject);
  });

/** Status of the answer to `question`, when all of it has come. */
const answerOf = (socket: Socket, question: Buffer): Promise<number> =>
  new Promise((resolve, reject) => {
    let head = Buffer.alloc(0);
    /** Octets still to come; null while the head is not whole. */
    let left: number | null = null;
    let status = 0;
    const settle = (outcome: () => void): void => {
      socket.off("data", take).off("error", fail).off("close", closed);
      outcome();
    };
    const fail = (error: Error): void => settle(() => reject(error));
    const closed = (): void => fail(new Error("the connection was closed before its answer was whole"));
    const take = (piece: Buffer): void => {
      if (left === null) {
        head = head.length === 0 ? piece : Buffer.concat([head, piece]);
        const ends = head.indexOf(HEAD_ENDS);
        if (ends < 0) return;
        const fields = head.toString("latin1", 0, ends);
        status = Number(fields.slice(9, 12));
        const length = /\r\ncontent-length: (\d+)/i.exec(fields)?.[1];
        const body = head.length - ends - HEAD_ENDS.length;
        left = status === 304 ? 0 : length === undefined ? Infinity : Number(length) - body;
      } else {
        left -= piece.length;
      }
      // Without a length it comes in chunks; a calendar holds no empty line, so none of it looks like their end.
      if (left === Infinity && piece.toString("latin1", Math.max(0, piece.length - CHUNKS_END.length)) === CHUNKS_END)
        left = 0;
      if (left <= 0) settle(() => resolve(status));
    };
    socket.on("data", take).on("error", fail).on("close", closed);
    socket.write(question);
  });
