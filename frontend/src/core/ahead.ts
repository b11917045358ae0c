// What a design would come to: edits that are looked at before they are made.

import type { Picked } from "./picking";
import { patched, received, settled, type Scene, type SceneChanges } from "./scene";

/** What the server says of edits that are only looked at. */
export interface Preview<Line> {
  base: number;
  /** What the edits change, by name, such as `main/run:J2`. */
  elements: string[];
  systems: Line[];
  scene: unknown;
  scene_changes: unknown;
}

/** The sheet as it would be, whole or as what differs from the one that is held; none where it cannot be drawn. */
export function sceneAhead(found: Preview<unknown>, held: Scene | null): Scene | null {
  const [whole, changes] = [found.scene as Scene | null, found.scene_changes as SceneChanges | null];
  if (whole !== null) return settled(received(whole), held);
  return changes !== null && held !== null && held.drawn === changes.since ? patched(held, changes) : null;
}

/** The runs of a system that edits change, or that lead to what they change. */
export function touchedRuns(elements: readonly string[], system: string): Picked {
  const found = elements.flatMap((name) => {
    const [of, element] = parted(name, "/");
    const [kind, id] = parted(element, ":");
    return of === system && ["run", "unit", "fitting"].includes(kind) && id !== "" ? [id] : [];
  });
  return [...new Set(found)];
}

/** A text before and behind the first sign that parts it; all of it is before where there is none. */
function parted(text: string, sign: string): [string, string] {
  const at = text.indexOf(sign);
  return at < 0 ? [text, ""] : [text.slice(0, at), text.slice(at + 1)];
}

/** Each line of a stream as JSON, as it comes. */
export async function* linesOf(stream: ReadableStream<Uint8Array>): AsyncGenerator<unknown> {
  const reader = stream.pipeThrough(new TextDecoderStream() as TransformStream<Uint8Array, string>).getReader();
  let rest = "";
  for (let { done, value } = await reader.read(); !done; { done, value } = await reader.read()) {
    const lines = (rest + (value ?? "")).split("\n");
    rest = lines.pop() ?? "";
    for (const line of lines) if (line !== "") yield JSON.parse(line) as unknown;
  }
  if (rest !== "") yield JSON.parse(rest) as unknown;
}
