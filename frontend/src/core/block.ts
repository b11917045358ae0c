// A block of cells that is marked in a table, from one corner to the other.

import { tsv, type At } from "./cells";

export interface Block {
  top: number;
  bottom: number;
  left: number;
  right: number;
}

export function blockOf(from: At, to: At): Block {
  return {
    top: Math.min(from.row, to.row),
    bottom: Math.max(from.row, to.row),
    left: Math.min(from.column, to.column),
    right: Math.max(from.column, to.column),
  };
}

export function holds(block: Block, row: number, column: number): boolean {
  return row >= block.top && row <= block.bottom && column >= block.left && column <= block.right;
}

export function isOne(block: Block): boolean {
  return block.top === block.bottom && block.left === block.right;
}

function span(from: number, to: number): number[] {
  return Array.from({ length: to - from + 1 }, (_, i) => from + i);
}

/** The block as a spreadsheet takes it. */
export function copied(block: Block, cellOf: (row: number, column: number) => string): string {
  return tsv(span(block.top, block.bottom).map((row) => span(block.left, block.right).map((column) => cellOf(row, column))));
}

/** One value for every cell of the block, as a block that can be pasted at its upper left corner. */
export function filled(block: Block, value: string): string {
  return tsv(span(block.top, block.bottom).map(() => span(block.left, block.right).map(() => value)));
}
