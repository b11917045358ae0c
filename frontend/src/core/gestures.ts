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
}

export type Gesture =
  | { does: "walk"; arrow: Arrow }
  | { does: "type"; text: string }
  | { does: "undo" | "redo" | "leave" | "add unit" | "add joint" | "turn header" | "take branch" | "hang branch" | "remove" };

/** The gesture of a key; none where it means nothing here. */
export function gestureOf(pressed: Pressed, held: Held): Gesture | null {
  const key = pressed.key.toLowerCase();
  if (pressed.ctrlKey || pressed.metaKey) {
    if (key === "z") return { does: pressed.shiftKey ? "redo" : "undo" };
    return key === "y" ? { does: "redo" } : null;
  }
  if (pressed.altKey) return null;
  if (isArrow(pressed.key)) return { does: "walk", arrow: pressed.key };
  if (pressed.key === "Escape") return { does: "leave" };
  return held.selected === null ? null : onSelected(pressed.key, key, held);
}

function onSelected(key: string, letter: string, held: Held): Gesture | null {
  if (beginsLength(key)) return { does: "type", text: key };
  if (key === "Delete") return { does: "remove" };
  if (key === "Enter") return held.moving ? { does: "hang branch" } : null;
  if (letter === "u") return { does: "add unit" };
  if (letter === "j") return { does: "add joint" };
  if (letter === "m") return { does: "take branch" };
  return letter === "h" && held.kind !== "unit" ? { does: "turn header" } : null;
}
