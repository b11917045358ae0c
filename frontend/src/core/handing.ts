// What a hand-over set is asked for with, and where what is wrong with it is said.

import type { Units } from "./edits";
import type { Problem } from "./session";

/** Papers of drawings, as the command line names them; nothing is the smallest that does. */
export const PAPERS = ["", "A4", "A3", "A2", "A1", "letter", "tabloid", "arch-a", "arch-b", "arch-c", "arch-d"];

export interface Wishes {
  paper: string;
  documents: string;
  mark: string;
  day: string;
  purpose: string;
  prices: boolean;
  waste: string;
  spares: string;
  asBuilt: boolean;
}

/** The same as it is sent. */
export interface SetOptions {
  paper: string;
  document_paper: string;
  revisions: string[];
  invented_prices: boolean;
  waste: string;
  spares: string;
  as_built: boolean;
  units: string;
}

/** As on the command line. */
const USUAL: Wishes = { paper: "", documents: "a4", mark: "", day: "", purpose: "", prices: false, waste: "5 %", spares: "0 %", asBuilt: false };

/** What was wished last, by design: a mark or prices of one are not those of another. Gone with the page. */
const last = new Map<number, Wishes>();

export function wishesFor(design: number): Wishes {
  return { ...(last.get(design) ?? USUAL) };
}

export function keepWishes(design: number, wishes: Wishes): void {
  last.set(design, { ...wishes });
}

/** One revision is asked for, and only where something is said of it. */
export function optionsOf(wishes: Wishes, units: Units | ""): SetOptions {
  const { paper, documents, mark, day, purpose, prices, waste, spares, asBuilt } = wishes;
  const stated = [mark, day, purpose].some((text) => text.trim() !== "");
  return {
    paper,
    document_paper: documents,
    revisions: stated ? [`${mark}, ${day}, ${purpose}`] : [],
    invented_prices: prices,
    waste,
    spares,
    as_built: asBuilt,
    units,
  };
}

/** What is wrong, by option; what is wrong with none of them stands under "". */
export function wrongOf(problem: Problem): Record<string, string> {
  const found: Record<string, string> = {};
  for (const { path, message } of problem.faults ?? [{ path: "", message: problem.detail }]) {
    found[/^options\.(\w+)/.exec(path ?? "")?.[1] ?? ""] = message;
  }
  return found;
}
