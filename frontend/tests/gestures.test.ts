import { describe, expect, it } from "vitest";
import { gestureOf, type Held } from "../src/core/gestures";

const joint: Held = { selected: "J1", kind: "joint", moving: false };
const nothing: Held = { selected: null, kind: null, moving: false };

function does(key: string, held: Held = joint, more: object = {}): string | null {
  return gestureOf({ key, ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...more }, held)?.does ?? null;
}

describe("keys as gestures", () => {
  it("walk whatever is selected", () => expect([does("ArrowUp", nothing), does("ArrowLeft")]).toEqual(["walk", "walk"]));
  it("do the rest only on what is selected", () => {
    for (const key of ["7", "u", "j", "h", "m", "Delete", "Enter"]) expect(does(key, nothing)).toBeNull();
    expect(["7", "u", "J", "h", "m", "Delete"].map((key) => does(key))).toEqual([
      "type",
      "add unit",
      "add joint",
      "turn header",
      "take branch",
      "remove",
    ]);
  });
  it("turn no unit into a header", () => expect(does("h", { ...joint, kind: "unit" })).toBeNull());
  it("hang a branch only where one was taken", () => {
    expect(does("Enter")).toBeNull();
    expect(does("Enter", { ...joint, moving: true })).toBe("hang branch");
  });
  it("take back and make again", () => {
    expect(does("z", joint, { ctrlKey: true })).toBe("undo");
    expect(does("Z", joint, { metaKey: true, shiftKey: true })).toBe("redo");
    expect(does("y", nothing, { ctrlKey: true })).toBe("redo");
  });
  it("leave the browser its own", () => {
    for (const more of [{ ctrlKey: true }, { altKey: true }]) expect(does("u", joint, more)).toBeNull();
    expect([does("Tab"), does("F5"), does("x")]).toEqual([null, null, null]);
  });
});
