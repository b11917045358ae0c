// Keys as gestures: what a key means, given what is selected. What it does is for who asks.

import { beginsLength } from "./edits";
import { isArrow, type Arrow } from "./walking";

export interface Pressed {
  key: string;
  ctrlKey: boolean;
  metaKey: boolean;
  altKey: boolean;
  shiftKey: boolean;
}

/** What is selected, what its far end is, and whether a branch was taken to be hung elsewhere. */
export interface Held {
  selected: string | null;
  kind: string | null;
  moving: boolean;
  /** Whether the sheet is what is looked at, and whether single letters are keys at all. */
  onSheet: boolean;
  letters: boolean;
}

export type View = "overview" | "sheet" | "table" | "book";

export type Gesture =
  | { does: "walk"; arrow: Arrow; extend: boolean }
  | { does: "type"; text: string }
  | { does: "show"; view: View }
  | { does: "zoom"; larger: boolean }
  | { does: "system"; next: boolean }
  | { does: "undo" | "redo" | "leave" | "find" | "help" | "fit" | "fold" | "remedies" }
  | { does: "add unit" | "add joint" | "turn header" | "take branch" | "hang branch" | "remove" | "pick beyond" | "room" };

/** What single letters mean wherever one is on the page. */
const ANYWHERE: Readonly<Record<string, Gesture>> = {
  "?": { does: "help" },
  o: { does: "show", view: "overview" },
  s: { does: "show", view: "sheet" },
  t: { does: "show", view: "table" },
  b: { does: "show", view: "book" },
};

/** And what they mean on the sheet, whatever is selected there. */
const ON_SHEET: Readonly<Record<string, Gesture>> = {
  "/": { does: "find" },
  "+": { does: "zoom", larger: true },
  "=": { does: "zoom", larger: true },
  "-": { does: "zoom", larger: false },
  "[": { does: "system", next: false },
  "]": { does: "system", next: true },
  f: { does: "fit" },
  w: { does: "fold" },
  r: { does: "remedies" },
};

/** The gesture of a key; none where it means nothing here. Letters can be switched off, for who speaks to a machine. */
export function gestureOf(pressed: Pressed, held: Held): Gesture | null {
  const key = pressed.key.toLowerCase();
  if (pressed.ctrlKey || pressed.metaKey) {
    if (key === "z") return { does: pressed.shiftKey ? "redo" : "undo" };
    return key === "y" ? { does: "redo" } : null;
  }
  if (pressed.altKey || (!held.letters && pressed.key.length === 1)) return null;
  const anywhere = ANYWHERE[key];
  if (anywhere !== undefined) return anywhere;
  if (!held.onSheet) return null;
  if (isArrow(pressed.key)) return { does: "walk", arrow: pressed.key, extend: pressed.shiftKey };
  if (pressed.key === "Escape") return { does: "leave" };
  return ON_SHEET[key] ?? (held.selected === null ? null : onSelected(pressed.key, key, held));
}

function onSelected(key: string, letter: string, held: Held): Gesture | null {
  if (beginsLength(key)) return { does: "type", text: key };
  if (key === "Delete") return { does: "remove" };
  if (key === "Enter") return held.moving ? { does: "hang branch" } : null;
  if (letter === "a") return { does: "pick beyond" };
  if (letter === "u") return { does: "add unit" };
  if (letter === "j") return { does: "add joint" };
  if (letter === "g") return { does: "room" };
  if (letter === "m") return { does: "take branch" };
  return letter === "h" && held.kind !== "unit" ? { does: "turn header" } : null;
}
