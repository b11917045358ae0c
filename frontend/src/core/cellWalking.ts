// Walking over the cells of a table by keys.

import type { At } from "./cells";

const STEPS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowDown: [1, 0],
  ArrowUp: [-1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
  PageDown: [15, 0],
  PageUp: [-15, 0],
};

/** The cell to which a key leads; none for a key that leads nowhere. */
export function moved(at: At, key: string, last: At): At | null {
  if (key === "Home") return { row: at.row, column: 0 };
  if (key === "End") return { row: at.row, column: last.column };
  const step = STEPS[key];
  if (step === undefined) return null;
  const within = (place: number, most: number): number => Math.max(0, Math.min(place, most));
  return { row: within(at.row + step[0], last.row), column: within(at.column + step[1], last.column) };
}
