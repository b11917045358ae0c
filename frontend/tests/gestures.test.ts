import { describe, expect, it } from "vitest";
import { gestureOf, type Held } from "../src/core/gestures";
import { KEYS } from "../src/core/keys";

const joint: Held = { selected: "J1", kind: "joint", moving: false, onSheet: true, letters: true };
const nothing: Held = { ...joint, selected: null, kind: null };

function does(key: string, held: Held = joint, more: object = {}): string | null {
  return gestureOf({ key, ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...more }, held)?.does ?? null;
}

describe("keys as gestures", () => {
  it("walk whatever is selected", () => expect([does("ArrowUp", nothing), does("ArrowLeft")]).toEqual(["walk", "walk"]));
  it("pick one more with Shift", () => {
    const more = { ctrlKey: false, metaKey: false, altKey: false, shiftKey: true };
    expect(gestureOf({ key: "ArrowDown", ...more }, joint)).toEqual({ does: "walk", arrow: "ArrowDown", extend: true });
  });
  it("do the rest only on what is selected", () => {
    for (const key of ["7", "u", "j", "h", "m", "a", "Delete", "Enter"]) expect(does(key, nothing)).toBeNull();
    expect(["7", "u", "J", "h", "m", "a", "Delete"].map((key) => does(key))).toEqual([
      "type",
      "add unit",
      "add joint",
      "turn header",
      "take branch",
      "pick beyond",
      "remove",
    ]);
  });
  it("turn no unit into a header", () => expect(does("h", { ...joint, kind: "unit" })).toBeNull());
  it("hang a branch only where one was taken", () => {
    expect(does("Enter")).toBeNull();
    expect(does("Enter", { ...joint, moving: true })).toBe("hang branch");
  });
  it("take back and make again, wherever one is", () => {
    expect(does("z", joint, { ctrlKey: true })).toBe("undo");
    expect(does("Z", { ...nothing, onSheet: false }, { metaKey: true, shiftKey: true })).toBe("redo");
    expect(does("y", nothing, { ctrlKey: true })).toBe("redo");
  });
  it("show the views wherever one is, and change the sheet only there", () => {
    const elsewhere = { ...joint, onSheet: false };
    expect(["o", "s", "t", "b", "?"].map((key) => does(key, elsewhere))).toEqual(["show", "show", "show", "show", "help"]);
    for (const key of ["7", "u", "Delete", "ArrowDown", "f", "/"]) expect(does(key, elsewhere)).toBeNull();
    expect(["+", "-", "f", "w", "/", "[", "]"].map((key) => does(key, nothing))).toEqual(["zoom", "zoom", "fit", "fold", "find", "system", "system"]);
  });
  it("mean nothing where single letters are switched off, but for those that are no letters", () => {
    const off = { ...joint, letters: false };
    for (const key of ["7", "u", "?", "o", "/", "+"]) expect(does(key, off)).toBeNull();
    expect([does("ArrowUp", off), does("Delete", off), does("z", off, { ctrlKey: true })]).toEqual(["walk", "remove", "undo"]);
  });
  it("leave the browser its own", () => {
    for (const more of [{ ctrlKey: true }, { altKey: true }]) expect(does("u", joint, more)).toBeNull();
    expect([does("Tab"), does("F5"), does("x"), does("p", joint, { ctrlKey: true })]).toEqual([null, null, null, null]);
  });
  it("stand in the list of keys, each that means something", () => {
    const listed = new Set(KEYS.flatMap((group) => group.lines.flatMap((line) => line.keys)));
    const letters = [..."abcdefghijklmnopqrstuvwxyz/?+-[]"].filter((key) => does(key) !== null);
    expect(letters.filter((key) => !listed.has(key.toUpperCase()))).toEqual([]);
    const told = [...listed].filter((key) => /^[A-Z/?+\-[\]]$/.test(key));
    expect(told.filter((key) => does(key.toLowerCase()) === null)).toEqual([]);
  });
});
