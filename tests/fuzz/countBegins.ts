/**
 * How many events begin in a text, counted without the reader: at least the lines that say so plainly, at most those that
 * may mean it. What is no calendar or breaks off is not asked about.
 */
export const countBegins = (octets: Uint8Array): { readonly least: number; readonly most: number } => {
  const lines = textOf(octets)
    .replaceAll(/[\r\n]+[ \t]/g, "")
    .split(/[\r\n]+/);
  const count = (pattern: RegExp): number => lines.filter((line) => pattern.test(line)).length;
  return { least: count(/^BEGIN:VEVENT$/i), most: count(/BEGIN.*VEVENT/is) };
};

/** UTF-16 by its first two octets; of any other text the letters that matter are octets. */
const textOf = (octets: Uint8Array): string => {
  const [first, second] = octets;
  const isBig = (first === 0xfe && second === 0xff) || (first === 0 && second !== 0);
  const isLittle = (first === 0xff && second === 0xfe) || (first !== 0 && second === 0);
  const coding = isBig ? "utf-16be" : isLittle ? "utf-16le" : "latin1";
  return new TextDecoder(coding).decode(octets);
};
