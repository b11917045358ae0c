// What the working can be asked for (docs/reference/commands.md, why), by what is looked at.

const PARTS = ["run", "unit", "fitting"];

/** What there is to ask of a run, of its far end, of the unit there. */
export function ofRun(subjects: readonly string[], system: string, run: string): string[] {
  const starts = PARTS.map((part) => `${system}/${part}:${run}`);
  return subjects.filter((one) => starts.some((start) => one === start || one.startsWith(`${start}.`)));
}

/** What there is to ask of a system as a whole: limits, capacity, charge; and of rooms. */
export function ofSystem(subjects: readonly string[], system: string): string[] {
  const isPart = (one: string): boolean => PARTS.some((part) => one.startsWith(`${system}/${part}:`));
  return subjects.filter((one) => one.startsWith("room:") || (one.startsWith(`${system}/`) && !isPart(one)));
}

/** The margin of which a primitive of the sheet is a part. */
export function marginOf(id: string): string | null {
  return /^margin:([^/]+)/.exec(id)?.[1] ?? null;
}

/** The subject of a margin; where a measure has several bounds each margin says which, the subject does not. */
export function ofMargin(subjects: readonly string[], system: string, margin: string): string | null {
  const names = [margin, margin.replace(/\.(min|max)$/, "")].flatMap((name) => [`${system}/${name}`, name]);
  return names.find((name) => subjects.includes(name)) ?? null;
}
