// What is picked: runs by the names of their far ends, the last one picked last. It leads: the keys go on from it.

import type { Run } from "./walking";

export type Picked = readonly string[];

/** The run from which the keys go on. */
export function leadOf(picked: Picked): string | null {
  return picked.at(-1) ?? null;
}

/** With one more, or without it where it was picked already. */
export function toggled(picked: Picked, run: string): Picked {
  return picked.includes(run) ? picked.filter((one) => one !== run) : [...picked, run];
}

/** With one more, which leads now. */
export function extended(picked: Picked, run: string): Picked {
  return [...picked.filter((one) => one !== run), run];
}

/** A run with everything beyond it, itself last. */
export function withBeyond(runs: readonly Run[], run: string): Picked {
  const beyond = runs.filter((one) => one.from === run).flatMap((one) => withBeyond(runs, one.id));
  return [...beyond, run];
}

/** What of several has none of the others before it on its way: with these, all of them are gone. */
export function topmost(runs: readonly Run[], picked: Picked): string[] {
  const from = new Map(runs.map((run) => [run.id, run.from]));
  const isBelow = (run: string): boolean => {
    for (let at = from.get(run); at !== undefined; at = from.get(at)) if (picked.includes(at)) return true;
    return false;
  };
  return picked.filter((run) => from.has(run) && !isBelow(run));
}

/** What of it is still there. */
export function remaining(runs: readonly Run[], picked: Picked): Picked {
  const found = picked.filter((one) => runs.some((run) => run.id === one));
  return found.length === picked.length ? picked : found;
}
