import { describe, expect, it } from "vitest";
import { blockOf, copied, filled, holds, isOne } from "../src/core/block";
import { pasted } from "../src/core/cells";

const cells = [
  ["J1", "12", ""],
  ["U1", "4", 'say "west"'],
];
const cellOf = (row: number, column: number): string => cells[row]?.[column] ?? "";

describe("a block of cells", () => {
  it("is the same from whichever corner it is marked", () => {
    expect(blockOf({ row: 2, column: 0 }, { row: 1, column: 3 })).toEqual({ top: 1, bottom: 2, left: 0, right: 3 });
  });

  it("holds its corners and what lies between, and nothing else", () => {
    const block = blockOf({ row: 1, column: 1 }, { row: 2, column: 2 });
    const held = [0, 1, 2, 3].flatMap((row) => [0, 1, 2, 3].filter((column) => holds(block, row, column)).map((column) => `${row}${column}`));
    expect(held).toEqual(["11", "12", "21", "22"]);
    expect(isOne(block)).toBe(false);
    expect(isOne(blockOf({ row: 1, column: 1 }, { row: 1, column: 1 }))).toBe(true);
  });

  it("is copied as spreadsheets copy it", () => {
    expect(copied(blockOf({ row: 0, column: 1 }, { row: 1, column: 2 }), cellOf)).toBe('12\t\n4\t"say ""west"""');
  });

  it("is filled by what can be pasted at its corner", () => {
    const columns = ["to", "length [m]", "bends"].map((heading) => ({ key: heading.split(" ")[0] ?? "", heading }));
    const text = filled(blockOf({ row: 0, column: 1 }, { row: 1, column: 2 }), "3");
    expect(pasted(text, columns, ["J1", "U1"], "to", { row: 0, column: 1 })).toEqual({ text: "to\tlength [m]\tbends\nJ1\t3\t3\nU1\t3\t3" });
  });

  it("that is emptied is not taken for nothing to paste", () => {
    const columns = ["to", "bends"].map((key) => ({ key, heading: key }));
    const made = pasted(filled(blockOf({ row: 0, column: 1 }, { row: 1, column: 1 }), ""), columns, ["J1", "U1"], "to", { row: 0, column: 1 });
    expect(made).toHaveProperty("trouble");
  });
});
