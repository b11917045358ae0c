import { describe, expect, it } from "vitest";
import { moved } from "../src/core/cellWalking";
import { cellsOf, pasted, tsv, valueOf } from "../src/core/cells";

const COLUMNS = ["to", "from", "length [m]", "bends"].map((heading) => ({ key: heading.split(" ")[0] ?? "", heading }));
const ROWS = ["J1", "U1", "U2"];

function paste(text: string, row: number, column: number): string {
  const made = pasted(text, COLUMNS, ROWS, "to", { row, column });
  return "text" in made ? made.text : `! ${made.trouble}`;
}

describe("cells of a spreadsheet", () => {
  const blocks = [[["a", "b"], ["c", ""]], [['say "so"', "two\nlines"], ["tab\there", "1,5"]], [["x"]], [["", "y"]]];
  it.each(blocks)("are read as they were written: %o", (...block) => expect(cellsOf(tsv(block))).toEqual(block));
  it("come with the line ends of any system, blank lines left out", () => {
    expect(cellsOf("a\tb\r\nc\td\r\n\r\n")).toEqual([["a", "b"], ["c", "d"]]);
    expect(cellsOf("a\rb")).toEqual([["a"], ["b"]]);
  });
  it("keep a mark of inches within a cell", () => expect(cellsOf(`12'-6"\t3"`)).toEqual([[`12'-6"`, `3"`]]));
});

describe("pasting", () => {
  it("takes a list with headings as it stands, wherever it is pasted", () => {
    expect(paste("From\tTo\tLength [ft]\nJ1\tU9\t12\n", 2, 3)).toBe("From\tTo\tLength [ft]\nJ1\tU9\t12\n");
  });
  it("puts cells without headings into the rows and columns from there on", () => {
    expect(paste("4\t1\n5\t2", 1, 2)).toBe("to\tlength [m]\tbends\nU1\t4\t1\nU2\t5\t2");
  });
  it("takes names with it, new ones too", () => expect(paste("U2\tJ1\t3\nU3\tJ1\t4", 2, 0)).toBe("to\tfrom\tlength [m]\nU2\tJ1\t3\nU3\tJ1\t4"));
  it("says what does not fit, and makes nothing of it", () => {
    expect(paste("1\t2\t3", 0, 2)).toContain("3 columns do not fit from length [m] on");
    expect(paste("1\n2\n3", 1, 2)).toContain("3 rows do not fit");
    expect(paste(" \n", 0, 0)).toContain("nothing to paste");
  });
});

describe("one value", () => {
  it("stands under its heading, once for each row", () => {
    expect(valueOf({ key: "length", heading: "length [m]" }, "to", ["U1", "U2"], "7 ft")).toBe("to\tlength [m]\nU1\t7 ft\nU2\t7 ft");
  });
});

describe("walking over cells", () => {
  const last = { row: 3, column: 2 };
  it("stays within the table", () => {
    expect(moved({ row: 0, column: 0 }, "ArrowUp", last)).toEqual({ row: 0, column: 0 });
    expect(moved({ row: 3, column: 2 }, "ArrowRight", last)).toEqual({ row: 3, column: 2 });
    expect(moved({ row: 1, column: 1 }, "ArrowDown", last)).toEqual({ row: 2, column: 1 });
    expect(moved({ row: 1, column: 1 }, "PageDown", last)).toEqual({ row: 3, column: 1 });
    expect(moved({ row: 1, column: 1 }, "End", last)).toEqual({ row: 1, column: 2 });
  });
  it("knows no other keys", () => expect(moved({ row: 0, column: 0 }, "x", last)).toBeNull());
});
