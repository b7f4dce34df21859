/** Kinds of fields of the rules' form: how a value of the settings stands in one, and what is meant by what was sent. */
import { clockSpan, clockTime, datesFromWords, datesInWords, fromWords, inWords } from "./spoken.ts";

export interface Kind {
  /** Several lines may stand in it. */
  readonly isLong: boolean;
  /** One text; of ticks, one for each that is set. */
  readonly show: (value: unknown) => readonly string[];
  /** What the settings are given; undefined: their default. What is wrong with it they say themselves. */
  readonly read: (sent: readonly string[]) => unknown;
}

const single = (show: (value: unknown) => string, read: (text: string) => unknown, isLong = false): Kind => ({
  isLong,
  show: (value) => [show(value)],
  read: ([text = ""]) => read(text),
});

const asText = (value: unknown): string =>
  typeof value === "string" ? value : typeof value === "number" ? String(value) : "";
const isBlank = (text: string): boolean => text.trim() === "";
/** Where nothing stands there, what stands for nothing. */
const unless =
  (nothing: null | undefined, read: (text: string) => unknown) =>
  (text: string): unknown =>
    isBlank(text) ? nothing : read(text);

export const linesOf = (text: string): readonly string[] => text.split(/\r\n?|\n/).filter((line) => !isBlank(line));
const asNumber = (text: string): unknown =>
  Number.isFinite(Number(text.replace(",", "."))) ? Number(text.replace(",", ".")) : text;

const lines = (show: (line: string) => string, read: (line: string) => string): Kind =>
  single(
    (value) => (value as readonly string[]).map(show).join("\n"),
    (text) => linesOf(text).map(read),
    true,
  );
const same = (text: string): string => text;

const readJson = (text: string): unknown => {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return text;
  }
};

export const KINDS = {
  text: single(asText, same),
  optional: single(asText, unless(null, same)),
  note: single(asText, unless(null, same), true),
  code: single(
    asText,
    unless(null, (text) => text.trim().toUpperCase()),
  ),
  number: single(asText, unless(undefined, asNumber)),
  optionalNumber: single(asText, unless(null, asNumber)),
  length: single((value) => inWords(asText(value)), unless(undefined, fromWords)),
  time: single(asText, unless(undefined, clockTime)),
  span: single(asText, unless(undefined, clockSpan)),
  /** Several of a day. */
  spans: single(
    (value) => ((value ?? []) as readonly string[]).join(", "),
    (text) =>
      text
        .split(/[,;]/)
        .filter((each) => !isBlank(each))
        .map(clockSpan),
  ),
  lines: lines(same, (line) => line.trim()),
  dates: lines(datesInWords, datesFromWords),
  /** Blank where there is nothing of its own. */
  json: single(
    (value) => (value === null || JSON.stringify(value) === "{}" ? "" : JSON.stringify(value, null, 2)),
    unless(undefined, readJson),
    true,
  ),
  tick: { isLong: false, show: (value) => (value === true ? ["yes"] : []), read: (sent) => sent.includes("yes") },
  ticks: {
    isLong: false,
    show: (value) => value as readonly string[],
    // A hidden one that is empty says that the ticks were asked for.
    read: (sent) => sent.filter((each) => each !== ""),
  },
} as const satisfies Record<string, Kind>;

/** A text as it stands in a field once a browser has had it: lines end in one way, and a field of one line has no other. */
const asBrowsersHaveIt = (text: string, isLong: boolean): string =>
  text.replaceAll("\0", "\ufffd").replace(/\r\n?|\n/g, isLong ? "\n" : "");

/** Whether what was sent is what was shown. Ticks are sent in the order of the page, each once, whatever was stored. */
export const isAsShown = (sent: readonly string[], shown: readonly string[], kind: Pick<Kind, "isLong">): boolean => {
  const [one, other] = [sent, shown].map((texts) => {
    const known = texts.filter((each) => each !== "").map((each) => asBrowsersHaveIt(each, kind.isLong));
    return kind === KINDS.ticks ? [...new Set(known)].toSorted() : known;
  });
  return JSON.stringify(one) === JSON.stringify(other);
};
