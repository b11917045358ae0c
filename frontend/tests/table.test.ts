import { describe, expect, it } from "vitest";
import type { Scene } from "../src/core/scene";
import { tableOf } from "../src/core/table";

function text(id: string, role: string, x: number, y: number, words: string, title?: string): unknown {
  return { kind: "text", id, role, css: "", group: "", order: 0, x_px: x, y_px: y, text: words, ...(title === undefined ? {} : { title }) };
}

const scene = {
  primitives: [
    text("lanes/unit", "column-head", 50, 0, "unit"),
    text("lanes/room", "column-head", 10, 0, "room"),
    text("lanes/spare", "column-head", 90, 0, "spare"),
    text("unit:U2/room", "cell", 10, 40, "Hall"),
    text("unit:U2/unit", "cell", 50, 40, "U2"),
    text("unit:U1/room", "cell", 10, 20, "Long na…", "Long name"),
    text("unit:U1/unit", "cell", 50, 20, "U1"),
    text("unit:U1/verdict/1", "cell-more", 70, 20, "more"),
  ],
} as unknown as Scene;

describe("the sheet as a table", () => {
  it("has its columns from left to right, and only those that say something", () => expect(tableOf(scene).heads).toEqual(["room", "unit"]));
  it("has its rows from the top, with the whole words", () =>
    expect(tableOf(scene).rows).toEqual([
      { id: "unit:U1", cells: ["Long name", "U1"] },
      { id: "unit:U2", cells: ["Hall", "U2"] },
    ]));
});
