import { describe, expect, it } from "vitest";
import { extended, leadOf, remaining, toggled, topmost, withBeyond } from "../src/core/picking";
import type { Run } from "../src/core/walking";

// outdoor - J1 - J2 - U1, U2; J1 - U3
const RUNS: Run[] = [
  { id: "J1", from: "outdoor", kind: "joint" },
  { id: "J2", from: "J1", kind: "joint" },
  { id: "U1", from: "J2", kind: "unit" },
  { id: "U2", from: "J2", kind: "unit" },
  { id: "U3", from: "J1", kind: "unit" },
];

describe("what is picked", () => {
  it("is led by what was picked last", () => {
    expect(leadOf([])).toBeNull();
    expect(leadOf(extended(["U1", "U2"], "U1"))).toBe("U1");
  });
  it("is given up by picking it again", () => expect(toggled(toggled(["U1"], "U2"), "U1")).toEqual(["U2"]));
  it("holds everything beyond a run, itself leading", () => {
    expect([...withBeyond(RUNS, "J2")].sort()).toEqual(["J2", "U1", "U2"]);
    expect(leadOf(withBeyond(RUNS, "J1"))).toBe("J1");
    expect(withBeyond(RUNS, "U3")).toEqual(["U3"]);
  });
  it("is removed by its topmost runs alone", () => {
    expect(topmost(RUNS, ["U1", "J2", "U3"])).toEqual(["J2", "U3"]);
    expect(topmost(RUNS, ["U1", "U2"])).toEqual(["U1", "U2"]);
    expect(topmost(RUNS, ["U1", "gone"])).toEqual(["U1"]);
  });
  it("loses what is there no more", () => {
    expect(remaining(RUNS, ["U1", "U9"])).toEqual(["U1"]);
    const same = ["U1", "U2"];
    expect(remaining(RUNS, same)).toBe(same);
  });
});
