// Gestures as edits (docs/reference/edits.md). What is typed goes to the server as it is; nothing is parsed here.

import type { TableKind } from "./place";

export type Units = "si" | "ip";
export type Edit = Record<string, unknown>;

/** A bare number is meant in the unit that the sheet shows. */
export function withUnit(text: string, units: Units): string {
  const bare = text.trim();
  return /^[-+]?[0-9]*\.?[0-9]+$/.test(bare) ? `${bare} ${units === "si" ? "m" : "ft"}` : bare;
}

export function setLength(system: string, run: string, text: string, units: Units): Edit {
  return { edit: "set", system, run, length: withUnit(text, units) };
}

/** One length for several runs. */
export function setLengths(system: string, runs: readonly string[], text: string, units: Units): Edit[] {
  return runs.map((run) => setLength(system, run, text, units));
}

export function removeSubtree(system: string, node: string): Edit {
  return { edit: "remove", system, node };
}

/** Whether a key begins to type a length. */
export function beginsLength(key: string): boolean {
  return /^[0-9.]$/.test(key);
}

/** Take away what a row of a table stands for; a run or a unit with everything beyond it. */
export function removeRow(kind: TableKind, system: string, name: string): Edit {
  if (kind === "levels") return { edit: "remove_level", level: name };
  if (kind === "rooms") return { edit: "remove_room", room: name };
  return removeSubtree(system, name);
}
