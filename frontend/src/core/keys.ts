// What the keys do, for who asks with `?`. docs/page.md tells the same.

export interface KeyLine {
  keys: string[];
  does: string;
}

export const KEYS: readonly { about: string; lines: readonly KeyLine[] }[] = [
  {
    about: "Walk",
    lines: [
      { keys: ["→", "←"], does: "the next run along the pipe, or the one before" },
      { keys: ["↓", "↑"], does: "the next run, or the one before, from top to bottom" },
      { keys: ["Shift+arrow"], does: "picks the next one as well" },
      { keys: ["A"], does: "picks everything beyond the selected run" },
      { keys: ["G"], does: "tells how far the selected run may grow before something gives" },
      { keys: ["/"], does: "finds a run, unit or room" },
      { keys: ["[", "]"], does: "the system before, the next system" },
      { keys: ["Escape"], does: "leaves the field, or picks nothing" },
    ],
  },
  {
    about: "Change",
    lines: [
      { keys: ["0–9", "."], does: "types the length of what is picked, and shows what it would come to; Enter sets it" },
      { keys: ["U"], does: "adds a unit" },
      { keys: ["J"], does: "puts a joint on the run" },
      { keys: ["H"], does: "makes a joint a header, and back" },
      { keys: ["M", "Enter"], does: "takes a branch, and hangs it on what is selected then" },
      { keys: ["R"], does: "looks for remedies of what fails; arrows show one on the sheet, Enter makes it" },
      { keys: ["Delete"], does: "removes what is picked, with everything beyond it" },
      { keys: ["Ctrl+Z"], does: "takes back the last change" },
      { keys: ["Ctrl+Shift+Z", "Ctrl+Y"], does: "makes it again" },
    ],
  },
  {
    about: "Look",
    lines: [
      { keys: ["+", "-"], does: "shows the sheet larger, smaller" },
      { keys: ["F"], does: "shows the whole sheet, and back" },
      { keys: ["W"], does: "folds the panel beside the sheet away, and back" },
      { keys: ["O", "S", "T", "B"], does: "overview, sheet, tables, book" },
      { keys: ["?"], does: "these keys" },
      { keys: ["Ctrl+P"], does: "prints what is shown" },
    ],
  },
];
