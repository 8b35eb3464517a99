/** Rows of cells → lines with aligned columns. Widths count characters as a terminal shows them (no wide characters here). */

/** Cells are padded to the widest of their column, two blanks apart; the last cell of a row is never padded. */
export function aligned(rows: readonly (readonly string[])[], indent = ""): string[] {
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, column) => {
      widths[column] = Math.max(widths[column] ?? 0, cell.length);
    });
  }
  return rows.map((row) => {
    const used = row.length - [...row].reverse().findIndex((cell) => cell !== "");
    return (
      indent +
      row
        .slice(0, used)
        .map((cell, column) => (column === used - 1 ? cell : cell.padEnd(widths[column]!)))
        .join("  ")
    );
  });
}

/** Words over lines of at most `width` characters. */
export function wrapped(text: string, width: number, indent: string): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/)) {
    if (line !== "" && line.length + 1 + word.length > width - indent.length) {
      lines.push(indent + line);
      line = word;
    } else {
      line = line === "" ? word : `${line} ${word}`;
    }
  }
  if (line !== "") lines.push(indent + line);
  return lines;
}
