// Gestures as edits (docs/reference/edits.md). What is typed goes to the server as it is; nothing is parsed here.

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

export function removeSubtree(system: string, node: string): Edit {
  return { edit: "remove", system, node };
}

/** Whether a key begins to type a length. */
export function beginsLength(key: string): boolean {
  return /^[0-9.]$/.test(key);
}
