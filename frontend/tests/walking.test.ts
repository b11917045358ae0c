import { describe, expect, it } from "vitest";
import { runsOf, walked, type Run } from "../src/core/walking";

const runs: Run[] = [
  { id: "J1", from: "outdoor", kind: "joint" },
  { id: "U1", from: "J1", kind: "joint" },
  { id: "J2", from: "J1", kind: "joint" },
  { id: "U2", from: "J2", kind: "joint" },
  { id: "U3", from: "J2", kind: "joint" },
];
const height = new Map([
  ["U1", 10],
  ["J1", 20],
  ["U2", 30],
  ["J2", 40],
  ["U3", 50],
]);

describe("walking over the sheet", () => {
  it("begins at the top", () => expect(walked(runs, height, null, "ArrowDown")).toBe("U1"));
  it("goes out along the pipe, to the upper branch first", () => expect(walked(runs, height, "J1", "ArrowRight")).toBe("U1"));
  it("goes back along the pipe", () => expect(walked(runs, height, "U3", "ArrowLeft")).toBe("J2"));
  it("goes over the lanes", () => {
    expect(walked(runs, height, "U1", "ArrowDown")).toBe("J1");
    expect(walked(runs, height, "J2", "ArrowUp")).toBe("U2");
  });
  it("stays where it leads nowhere", () => {
    expect(walked(runs, height, "J1", "ArrowLeft")).toBe("J1");
    expect(walked(runs, height, "U1", "ArrowRight")).toBe("U1");
    expect(walked(runs, height, "U1", "ArrowUp")).toBe("U1");
    expect(walked(runs, height, "U3", "ArrowDown")).toBe("U3");
  });
  it("begins anew where what was selected is gone", () => expect(walked(runs, height, "U9", "ArrowLeft")).toBe("U1"));
  it("has nowhere to go on an empty sheet", () => expect(walked([], new Map(), null, "ArrowDown")).toBeNull());
});

describe("the trees of a design", () => {
  const trees = {
    systems: [
      {
        id: "main",
        runs: [
          { id: "J1", from: "outdoor" },
          { id: "H1", from: "J1" },
          { id: "U1", from: "H1" },
        ],
        units: [{ id: "U1", model: "wall", room: "" }],
        fittings: [{ id: "H1", kind: "header", model: "" }],
      },
    ],
    rooms: [],
  };
  it("says what each far end is", () => expect(runsOf(trees, "main").map((run) => run.kind)).toEqual(["joint", "header", "unit"]));
  it("is empty for a system that is not there", () => expect(runsOf(trees, "other")).toEqual([]));
});
