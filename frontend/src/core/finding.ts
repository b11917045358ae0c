// Finding a run, a unit or a room by any word that stands on it.

import type { Trees } from "./walking";

export interface Entry {
  /** The run that is selected with it. */
  run: string;
  system: string;
  /** What is shown, and what is searched in. */
  words: string;
}

const MOST = 12;

/** Entries that hold every part of what is typed, best first: whole names, then beginnings of words, then the rest. */
export function found(entries: readonly Entry[], typed: string): Entry[] {
  const parts = typed.toLocaleLowerCase().split(/\s+/).filter((part) => part !== "");
  if (parts.length === 0) return [];
  const ranked = entries
    .map((entry) => ({ entry, rank: rankOf(entry, parts) }))
    .filter((one) => one.rank < 3)
    .sort((one, other) => one.rank - other.rank);
  return ranked.slice(0, MOST).map((one) => one.entry);
}

function rankOf(entry: Entry, parts: string[]): number {
  const words = entry.words.toLocaleLowerCase();
  if (!parts.every((part) => words.includes(part))) return 3;
  if (parts.length === 1 && entry.run.toLocaleLowerCase() === parts[0]) return 0;
  return parts.every((part) => words.startsWith(part) || words.includes(` ${part}`)) ? 1 : 2;
}

/** Everything that can be found, units first. */
export function entriesOf(trees: Trees): Entry[] {
  const rooms = new Map(trees.rooms.map((room) => [room.id, room.name]));
  return trees.systems.flatMap((system) => {
    const words = (...parts: (string | undefined)[]): string => [...parts, system.id].filter((part) => part !== "" && part !== undefined).join(" ");
    return [
      ...system.units.map((unit) => ({ run: unit.id, system: system.id, words: words(unit.id, unit.model, unit.room, rooms.get(unit.room)) })),
      ...system.fittings.map((one) => ({ run: one.id, system: system.id, words: words(one.id, one.kind, one.model) })),
    ];
  });
}
