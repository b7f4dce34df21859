/** Text from a file as a terminal may show it: nothing in it that a terminal obeys, and no wider than there is room. */

/** Control and format characters, halves of pairs and line breaks of Unicode. */
const UNSHOWN = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]+/gu;
/** Marks that stand on the character before them. */
const NO_WIDTH = /^\p{M}$/u;
/** Characters of two columns: East Asian wide ones (Unicode annex 11) and emoji. */
const TWO_WIDE =
  /^(?:[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{20000}-\u{3fffd}]|\p{Emoji_Presentation})$/u;
/** Marks that may stand on one character, at most: a hundred of them would still have no width. */
const MARKS_MAX = 4;

const columnsOf = (character: string): number => (NO_WIDTH.test(character) ? 0 : TWO_WIDE.test(character) ? 2 : 1);

/** On one line, at most `columns` wide; what was cut is marked by an ellipsis. */
export const fitText = (text: string, columns: number): string => {
  const shown: string[] = [];
  let used = 0;
  let marks = 0;
  // A character is at most two units, and none needs more marks than that: more of a text is never looked at.
  for (const character of text
    .slice(0, columns * 2 * (1 + MARKS_MAX))
    .replace(UNSHOWN, " ")
    .trim()) {
    const width = columnsOf(character);
    marks = width === 0 ? marks + 1 : 0;
    if (marks > MARKS_MAX) continue;
    if (used + width > columns) {
      while (used > columns - 1) used -= columnsOf(shown.pop() ?? "");
      return `${shown.join("").trimEnd()}…`;
    }
    shown.push(character);
    used += width;
  }
  return shown.join("");
};

/** A path on one line; where it is cut, its beginning is: the name at its end tells more. */
export const fitPath = (path: string, columns: number): string => {
  const characters = Array.from(path.replace(UNSHOWN, " ").trim());
  let used = 0;
  let from = characters.length;
  while (from > 0 && used + columnsOf(characters[from - 1] ?? "") <= columns)
    used += columnsOf(characters[--from] ?? "");
  if (from === 0) return characters.join("");
  while (used > columns - 1 || NO_WIDTH.test(characters[from] ?? "")) used -= columnsOf(characters[from++] ?? "");
  return `…${characters.slice(from).join("")}`;
};

/**
 * Words in lines of at most `columns`, the first behind `first`, the others behind as many blanks. A word that is longer
 * than a line is cut.
 */
export const wrapText = (text: string, first: string, columns: number): string => {
  const room = columns - first.length;
  const lines: string[] = [];
  let line = "";
  for (const word of text
    .replace(UNSHOWN, " ")
    .split(" ")
    .filter((each) => each !== "")) {
    const fitted = fitText(word, room);
    if (line !== "" && line.length + 1 + fitted.length > room) {
      lines.push(line);
      line = fitted;
    } else line = line === "" ? fitted : `${line} ${fitted}`;
  }
  lines.push(line);
  return lines.map((each, index) => `${index === 0 ? first : " ".repeat(first.length)}${each}\n`).join("");
};
