// What the panel beside the sheet is for just now.

export type Task =
  | { does: "look" | "room" | "unit" | "system" | "history" }
  | { does: "remedies"; subject: string }
  | { does: "length" | "joint"; text: string };
