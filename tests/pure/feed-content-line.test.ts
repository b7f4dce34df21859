import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cleanLine, cleanText, cleanUri, escapeText, writeLine } from "../../src/feed/contentLine.ts";

const octets = (text: string): number => new TextEncoder().encode(text).length;
const summary = (value: string): string => writeLine({ name: "SUMMARY", parameters: "", value });
const unfold = (text: string): string => text.replaceAll("\r\n ", "");

describe("folding (RFC 5545 §3.1)", () => {
  test("leaves 75 octets on one line and folds the 76th", () => {
    expect(summary("x".repeat(67))).toBe(`SUMMARY:${"x".repeat(67)}\r\n`);
    expect(summary("x".repeat(68))).toBe(`SUMMARY:${"x".repeat(67)}\r\n x\r\n`);
  });

  test("never stands inside a UTF-8 sequence: every piece decodes, and is at most 75 octets", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 300 }), (text) => {
        const value = escapeText(cleanLine(text));
        const written = summary(value);
        const pieces = written.slice(0, -2).split("\r\n");
        for (const piece of pieces) {
          expect(octets(piece)).toBeLessThanOrEqual(75);
          expect(
            new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(new TextEncoder().encode(piece)),
          ).toBe(piece);
          expect(piece.isWellFormed()).toBe(true);
        }
        expect(unfold(written)).toBe(`SUMMARY:${value}\r\n`);
      }),
      { numRuns: 200 },
    );
  });

  test("counts an emoji as four octets", () => {
    const written = summary("😀".repeat(40));
    expect(written.split("\r\n ").map((piece) => piece.match(/😀/gu)?.length)).toEqual([16, 18, 6]);
  });
});

describe("values", () => {
  test("escapes backslash, semicolon, comma and line end, and nothing else (RFC 5545 §3.3.11)", () => {
    expect(escapeText('a\\b;c,d\ne:"f"^')).toBe('a\\\\b\\;c\\,d\\ne:"f"^');
  });

  test("turns every kind of line end into one, or into a space where the text is one line", () => {
    const hostile = "a\r\nb\rc\nd\u0085e\u2028f\u2029g";
    expect(cleanText(hostile)).toBe("a\nb\nc\nd\ne\nf\ng");
    expect(cleanLine(hostile)).toBe("a b c d e f g");
  });

  test("drops NUL, other control characters, the byte order mark and half a surrogate pair", () => {
    expect(cleanLine("\ufeffa\0b\x07c\x7fd\x9fe")).toBe("abcde");
    expect(cleanLine("a\ud83d").isWellFormed()).toBe(true);
  });

  test("whatever a value holds, it stays one line", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 200 }), (text) => {
        for (const value of [escapeText(cleanText(text)), escapeText(cleanLine(text)), cleanUri(text)]) {
          // oxlint-disable-next-line no-control-regex -- control characters are what is looked for
          expect(unfold(summary(value)).slice(0, -2)).not.toMatch(/[\x00-\x08\x0a-\x1f\x7f\x85\u2028\u2029]/);
        }
      }),
    );
  });

  test("leaves an address as it is but for what no URI may hold (RFC 5545 §3.3.13)", () => {
    expect(cleanUri("https://a.example/c/x,y;z?q=1&r=%20#s")).toBe("https://a.example/c/x,y;z?q=1&r=%20#s");
    expect(cleanUri("https://a.example/\r\nX-EVIL:1 é")).toBe("https://a.example/%0D%0AX-EVIL:1%20%C3%A9");
  });
});
