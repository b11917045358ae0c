import { describe, expect, it } from "vitest";
import { entriesOf, found } from "../src/core/finding";

const TREES = {
  systems: [
    {
      id: "main",
      runs: [],
      units: [
        { id: "U1", model: "cassette 4.5", room: "r1" },
        { id: "U10", model: "duct 7.1", room: "r2" },
        { id: "U2", model: "wall 2.2", room: "" },
      ],
      fittings: [{ id: "J1", kind: "joint", model: "joint small" }],
    },
  ],
  rooms: [
    { id: "r1", name: "Waiting room" },
    { id: "r2", name: "Entrance hall" },
  ],
};

function runs(typed: string): string[] {
  return found(entriesOf(TREES), typed).map((one) => one.run);
}

describe("finding", () => {
  it("knows runs, models and rooms", () => {
    expect(runs("waiting")).toEqual(["U1"]);
    expect(runs("duct")).toEqual(["U10"]);
    expect(runs("joint")).toEqual(["J1"]);
  });
  it("puts the whole name first", () => expect(runs("u1")).toEqual(["U1", "U10"]));
  it("wants every part, in any order and case", () => {
    expect(runs("HALL duct")).toEqual(["U10"]);
    expect(runs("hall cassette")).toEqual([]);
  });
  it("finds words by their middle last", () => expect(runs("all")).toEqual(["U10", "U2", "J1"]));
  it("shows nothing where nothing is typed, and no more than a list that can be looked over", () => {
    expect(runs("  ")).toEqual([]);
    const many = Array.from({ length: 80 }, (_, i) => ({ run: `U${i}`, system: "main", words: `U${i} wall` }));
    expect(found(many, "wall")).toHaveLength(12);
  });
});
