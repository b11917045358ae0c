// Cells as spreadsheets copy them: parted by tabs, rows by lines, in quotation marks where a cell holds either.
// What they mean is told by the server, which reads the same table (docs/reference/commands.md, run list).

export interface Column {
  key: string;
  heading: string;
}

/** A block of cells as text. */
export function tsv(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => row.map(quoted).join("\t")).join("\n");
}

function quoted(cell: string): string {
  return /["\t\n\r]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}

/** Text as a block of cells. Commas part them only where there is no tab at all and the row has as many as it has columns. */
export function cellsOf(text: string): string[][] {
  const rows: string[][] = [[]];
  let cell = "";
  let inside = false;
  const plain = text.replaceAll("\r\n", "\n").replaceAll("\r", "\n");
  for (let at = 0; at < plain.length; at += 1) {
    const sign = plain.charAt(at);
    if (inside && sign === '"' && plain.charAt(at + 1) === '"') [cell, at] = [`${cell}"`, at + 1];
    else if (sign === '"' && (inside || cell === "")) inside = !inside;
    else if (!inside && (sign === "\t" || sign === "\n")) {
      rows.at(-1)?.push(cell);
      cell = "";
      if (sign === "\n") rows.push([]);
    } else cell += sign;
  }
  rows.at(-1)?.push(cell);
  return rows.filter((row) => row.some((one) => one.trim() !== ""));
}

/** Where in a table something is pasted, from 0. */
export interface At {
  row: number;
  column: number;
}

export type Pasted = { text: string } | { trouble: string };

/**
 * What is pasted, as a table that the server reads: with headings of its own it stands for itself, without them its cells
 * belong to the rows and columns from where it is pasted on.
 */
export function pasted(text: string, columns: readonly Column[], rows: readonly string[], key: string, at: At): Pasted {
  const block = cellsOf(text);
  const first = block[0];
  if (first === undefined) return { trouble: "there is nothing to paste" };
  if (headed(first, key)) return { text: text.replaceAll("\r\n", "\n") };
  const widest = Math.max(...block.map((row) => row.length));
  const into = columns.slice(at.column, at.column + widest);
  if (into.length < widest) return { trouble: `${widest} columns do not fit from ${columns[at.column]?.heading ?? "here"} on` };
  const names = into.some((column) => column.key === key);
  if (!names && at.row + block.length > rows.length) {
    return { trouble: `${block.length} rows do not fit from here on: new ones need their name, under ${key}` };
  }
  const heads = into.map((column) => column.heading);
  if (names) return { text: tsv([heads, ...block]) };
  return { text: tsv([[key, ...heads], ...block.map((row, i) => [rows[at.row + i] ?? "", ...row])]) };
}

/** Whether a row holds headings: one of them is that of the column of names. */
export function headed(row: readonly string[], key: string): boolean {
  return row.some((cell) => cell.trim().toLowerCase() === key);
}

/** One value of several rows, as a table. */
export function valueOf(column: Column, key: string, rows: readonly string[], value: string): string {
  return tsv([[key, column.heading], ...rows.map((row) => [row, value])]);
}
