// The first look around: what stands where, and what is tried first.

export interface Step {
  /** What is pointed at, as a selector of the page. */
  at: string;
  title: string;
  text: string;
}

export const STEPS: readonly Step[] = [
  { at: "[data-tour=sheet]", title: "The sheet", text: "Pipe is drawn to its reach from the outdoor group: a unit to the right is farther away. Each indoor unit has a lane, and its room, capacity and spare stand on it." },
  { at: "[data-tour=sheet]", title: "Limits are lines", text: "A length limit of the book is a line across the sheet, with hatched ground beyond it. Above stand the margins, least first; what is over is marked and said." },
  { at: "[data-tour=panel]", title: "What is selected", text: "Walk with the arrow keys, or point. Here stand its values, what can be done with it, and how each number comes about, with the page of the book." },
  { at: "[data-tour=panel]", title: "Change something", text: "Type a number on a run: it is the new length, and everything is judged again at once. Ctrl+Z takes it back; nothing that was done is ever lost, see History." },
  { at: "[data-tour=views]", title: "Tables and the book", text: "Rooms, units and runs are tables too: paste them from a spreadsheet. The book can be read page by page, and a value of it corrected." },
  { at: "[data-tour=help]", title: "All the keys", text: "Press ? whenever you want to know what a key does. This is a demonstration: every figure of it is invented." },
];
