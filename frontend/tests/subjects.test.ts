import { describe, expect, it } from "vitest";
import { marginOf, ofMargin, ofRun, ofSystem } from "../src/core/subjects";

const SUBJECTS = ["main/limit:main_length", "main/limit:indoor_count", "main/charge", "main/run:J1.length", "main/run:J11.length", "main/unit:J1", "main/fitting:J1.model", "room:hall.cooling", "other/charge"];

describe("what the working can be asked for", () => {
  it("is told of a run, and of no other that begins alike", () => {
    expect(ofRun(SUBJECTS, "main", "J1")).toEqual(["main/run:J1.length", "main/unit:J1", "main/fitting:J1.model"]);
  });
  it("is told of a system as a whole", () => {
    expect(ofSystem(SUBJECTS, "main")).toEqual(["main/limit:main_length", "main/limit:indoor_count", "main/charge", "room:hall.cooling"]);
  });
  it("is found by a margin of the sheet", () => {
    expect(marginOf("margin:limit:main_length/name")).toBe("limit:main_length");
    expect(marginOf("run:J1")).toBeNull();
    expect(ofMargin(SUBJECTS, "main", "limit:main_length")).toBe("main/limit:main_length");
    expect(ofMargin(SUBJECTS, "main", "limit:indoor_count.min")).toBe("main/limit:indoor_count");
    expect(ofMargin(SUBJECTS, "main", "room:hall.cooling")).toBe("room:hall.cooling");
    expect(ofMargin(SUBJECTS, "main", "limit:unheard")).toBeNull();
  });
});
