import { describe, expect, it } from "vitest";
import { beginsLength, removeSubtree, setLength, withUnit } from "../src/core/edits";

describe("what is typed", () => {
  it("is meant in the unit of the sheet where it has none", () => {
    expect(withUnit("12.5", "si")).toBe("12.5 m");
    expect(withUnit(" 40 ", "ip")).toBe("40 ft");
    expect(withUnit(".5", "si")).toBe(".5 m");
  });
  it("goes to the server as it is where it says more", () => {
    for (const text of ["12'-6\"", "40 ft", "unknown", "twelve", "1,5", ""]) expect(withUnit(text, "si")).toBe(text.trim());
  });
  it("begins with a figure", () => {
    for (const key of ["0", "9", "."]) expect(beginsLength(key)).toBe(true);
    for (const key of ["a", "Enter", "-", "10", ""]) expect(beginsLength(key)).toBe(false);
  });
  it("is an edit", () => {
    expect(setLength("main", "J2", "7", "si")).toEqual({ edit: "set", system: "main", run: "J2", length: "7 m" });
    expect(removeSubtree("main", "J2")).toEqual({ edit: "remove", system: "main", node: "J2" });
  });
});
