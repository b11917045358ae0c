// Walking over the sheet by keys: along the pipe to the right and left, over the lanes up and down.

export interface Run {
  id: string;
  from: string;
  /** What its far end is: `unit`, `joint`, `header`, `box` or `coupling`. */
  kind: string;
}

/** The trees of a design by name (linewright/tree/1). */
export interface Trees {
  systems: {
    id: string;
    runs: { id: string; from: string }[];
    units: { id: string; model: string; room: string }[];
    fittings: { id: string; kind: string; model: string }[];
  }[];
  rooms: { id: string; name: string }[];
}

/** The runs of a system as they hang together. */
export function runsOf(trees: Trees, system: string): Run[] {
  const found = trees.systems.find((one) => one.id === system);
  if (found === undefined) return [];
  const kinds = new Map([...found.units.map((unit) => [unit.id, "unit"] as const), ...found.fittings.map((one) => [one.id, one.kind] as const)]);
  return found.runs.map((run) => ({ id: run.id, from: run.from, kind: kinds.get(run.id) ?? "joint" }));
}

export type Arrow = "ArrowLeft" | "ArrowRight" | "ArrowUp" | "ArrowDown";

export function isArrow(key: string): key is Arrow {
  return key === "ArrowLeft" || key === "ArrowRight" || key === "ArrowUp" || key === "ArrowDown";
}

/** The run to which a key leads; where it leads nowhere, the one that is selected. */
export function walked(runs: readonly Run[], height: ReadonlyMap<string, number>, selected: string | null, key: Arrow): string | null {
  const at = runs.find((run) => run.id === selected);
  if (at === undefined) return byHeight(runs, height)[0]?.id ?? null;
  if (key === "ArrowLeft") return runs.find((run) => run.id === at.from)?.id ?? at.id;
  if (key === "ArrowRight") {
    const beyond = runs.filter((run) => run.from === at.id);
    return byHeight(beyond, height)[0]?.id ?? at.id;
  }
  const order = byHeight(runs, height);
  const place = order.findIndex((run) => run.id === at.id);
  return order[place + (key === "ArrowDown" ? 1 : -1)]?.id ?? at.id;
}

function byHeight(runs: readonly Run[], height: ReadonlyMap<string, number>): Run[] {
  return [...runs].sort((one, other) => (height.get(one.id) ?? 0) - (height.get(other.id) ?? 0));
}
