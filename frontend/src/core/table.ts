// The sheet as a table: what its lanes say, for who does not see the picture.

import type { Scene, TextPrimitive } from "./scene";

export interface SheetTable {
  heads: string[];
  rows: { id: string; cells: string[] }[];
}

/** The table on the lanes, its columns from left to right and its rows from the top. */
export function tableOf(scene: Scene): SheetTable {
  const texts = scene.primitives.filter((item): item is TextPrimitive => item.kind === "text");
  const heads = texts.filter((item) => item.role === "column-head").sort((one, other) => one.x_px - other.x_px);
  const columns = heads.map((head) => head.id.slice("lanes/".length));
  const rows = new Map<string, { y: number; cells: Map<string, string> }>();
  for (const item of texts.filter((one) => one.role === "cell")) {
    const [unit, column] = parted(item.id);
    const row = rows.get(unit) ?? { y: item.y_px, cells: new Map<string, string>() };
    row.cells.set(column, item.title ?? item.text);
    rows.set(unit, row);
  }
  const ordered = [...rows].sort(([, one], [, other]) => one.y - other.y);
  const shown = columns.filter((column) => ordered.some(([, row]) => row.cells.has(column)));
  return {
    heads: shown.map((column) => heads.find((head) => head.id === `lanes/${column}`)?.text ?? column),
    rows: ordered.map(([id, row]) => ({ id, cells: shown.map((column) => row.cells.get(column) ?? "") })),
  };
}

function parted(id: string): [string, string] {
  const at = id.lastIndexOf("/");
  return [id.slice(0, at), id.slice(at + 1)];
}
