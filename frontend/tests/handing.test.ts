import { describe, expect, it } from "vitest";
import { keepWishes, optionsOf, wishesFor, wrongOf } from "../src/core/handing";

const usual = {
  paper: "",
  document_paper: "a4",
  revisions: [],
  invented_prices: false,
  waste: "5 %",
  spares: "0 %",
  as_built: false,
  units: "",
};

describe("a hand-over set that is asked for", () => {
  it("is as on the command line where nothing is wished", () => expect(optionsOf(wishesFor(1), "")).toEqual(usual));
  it("has the units of the page and one revision", () => {
    const wishes = { ...wishesFor(1), paper: "A2", mark: "B", day: "2026-11-20", purpose: "for tender, all trades" };
    expect(optionsOf(wishes, "ip")).toEqual({ ...usual, paper: "A2", units: "ip", revisions: ["B, 2026-11-20, for tender, all trades"] });
  });
  it("says a revision of which something is left out, so that it is refused", () => {
    expect(optionsOf({ ...wishesFor(1), mark: "B" }, "").revisions).toEqual(["B, , "]);
    expect(optionsOf({ ...wishesFor(1), day: "2026-11-20" }, "").revisions).toEqual([", 2026-11-20, "]);
  });
  it("remembers what was wished for one design, and not for another", () => {
    keepWishes(7, { ...wishesFor(7), mark: "C", prices: true });
    expect(wishesFor(7)).toMatchObject({ mark: "C", prices: true });
    expect(wishesFor(8)).toMatchObject({ mark: "", prices: false });
    wishesFor(7).mark = "D";
    expect(wishesFor(7).mark).toBe("C");
  });
  it("says what is wrong beside its option", () => {
    const fault = (path: string, message: string) => ({ path, message, expected: "", value: "" });
    const faults = [fault("options.revisions.0", "'B, , ' is no revision"), fault("options.waste", "out of range"), fault("design", "what?")];
    expect(wrongOf({ status: 422, detail: "", faults })).toEqual({ revisions: "'B, , ' is no revision", waste: "out of range", "": "what?" });
    expect(wrongOf({ status: 404, detail: "no design 9" })).toEqual({ "": "no design 9" });
  });
});
