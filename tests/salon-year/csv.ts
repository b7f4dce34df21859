/** Reads a table as RFC 4180 writes it, and takes off the apostrophe that keeps a cell from being run as a formula. */
export const readTable = (text: string): readonly Readonly<Record<string, string>>[] => {
  const rows: string[][] = [[]];
  let [cell, isQuoted] = ["", false];
  const endCell = (): void => {
    rows.at(-1)?.push(/^'[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20]/.test(cell) ? cell.slice(1) : cell);
    cell = "";
  };
  for (let at = 0; at < text.length; at++) {
    const letter = text[at] as string;
    if (isQuoted) {
      if (letter !== '"') cell += letter;
      else if (text[at + 1] === '"') cell += text[++at] as string;
      else isQuoted = false;
    } else if (letter === '"') isQuoted = true;
    else if (letter === ",") endCell();
    else if (letter === "\n") {
      endCell();
      rows.push([]);
    } else if (letter !== "\r") cell += letter;
  }
  const [header = [], ...lines] = rows;
  return lines
    .filter((line) => line.length > 0)
    .map((line) => Object.fromEntries(header.map((name, column) => [name, line[column] ?? ""])));
};

export const writeTable = (header: readonly string[], rows: readonly (readonly (string | number | null)[])[]): string =>
  [header, ...rows]
    .map((row) => row.map((cell) => (cell === null ? "" : `"${String(cell).replaceAll('"', '""')}"`)).join(","))
    .join("\r\n");
