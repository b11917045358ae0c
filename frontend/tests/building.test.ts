import { describe, expect, it } from "vitest";
import { addUnit, newSystem, nextName, turnHeader } from "../src/core/building";

const unit = { model: "cassette 5.6", length: "4", room: "", at: "6" };

describe("building by gestures", () => {
  it("gives the first free name", () => {
    expect(nextName("U", [])).toBe("U1");
    expect(nextName("U", ["U1", "U3", "J2"])).toBe("U2");
  });
  it("hangs a unit on a joint", () =>
    expect(addUnit("main", { run: "J1", endsAtUnit: false }, { ...unit, room: "hall" }, ["J1", "U1"], "si")).toEqual([
      {
        edit: "add",
        system: "main",
        runs: [{ from: "J1", to: "U2", length: "4 m" }],
        units: [{ id: "U2", model: "cassette 5.6", room: "hall" }],
      },
    ]));
  it("puts a joint on a unit's own run first, in one gesture", () =>
    expect(addUnit("main", { run: "U1", endsAtUnit: true }, unit, ["J1", "U1"], "ip")).toEqual([
      { edit: "split", system: "main", run: "U1", node: "J2", at: "6 ft" },
      { edit: "add", system: "main", runs: [{ from: "J2", to: "U2", length: "4 ft" }], units: [{ id: "U2", model: "cassette 5.6" }] },
    ]));
  it("turns joints into headers and back", () => {
    expect(turnHeader("main", "J1", "joint")).toEqual({ edit: "change_kind", system: "main", fitting: "J1", kind: "header" });
    expect(turnHeader("main", "J1", "header")).toEqual({ edit: "change_kind", system: "main", fitting: "J1", kind: "unknown" });
  });
  it("begins a system with one unit", () => {
    const said = { id: "a", book: "minimal", modules: ["outdoor 16"], model: "cassette 5.6", length: "12'-6\"" };
    expect(newSystem(said, "si")).toEqual({
      edit: "add_system",
      added: {
        id: "a",
        book: "minimal",
        outdoor: { modules: [{ model: "outdoor 16" }] },
        units: [{ id: "U1", model: "cassette 5.6" }],
        runs: [{ from: "outdoor", to: "U1", length: "12'-6\"" }],
      },
    });
  });
});
