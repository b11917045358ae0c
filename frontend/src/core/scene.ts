// A sheet as the server sends it (docs/reference/scene.md). Nothing is computed from it but where things stand.

interface Common {
  id: string;
  role: string;
  css: string;
  group: string;
  order: number;
  title?: string;
}

export interface LinePrimitive extends Common {
  kind: "line";
  x1_px: number;
  y1_px: number;
  x2_px: number;
  y2_px: number;
  stroke_px: number;
}

export interface RectPrimitive extends Common {
  kind: "rect" | "hatch";
  x_px: number;
  y_px: number;
  width_px: number;
  height_px: number;
  radius_px?: number;
}

export interface CirclePrimitive extends Common {
  kind: "circle";
  x_px: number;
  y_px: number;
  radius_px: number;
}

export interface TextPrimitive extends Common {
  kind: "text";
  x_px: number;
  y_px: number;
  text: string;
  size_px: number;
  weight: "regular" | "semibold";
  anchor: "start" | "middle" | "end";
}

export type Primitive = LinePrimitive | RectPrimitive | CirclePrimitive | TextPrimitive;

export interface Scene {
  schema: "linewright/scene/1";
  title: string;
  description: string;
  width_px: number;
  height_px: number;
  units: "si" | "ip";
  axis: { name: string };
  /** The mark by which the server knows it again. */
  drawn: string;
  groups: { id: string; label: string; aria: string; parent: string }[];
  primitives: Primitive[];
}

/** A scene as it was sent, its primitives in the order in which they are painted. */
export function received(sent: Scene): Scene {
  return { ...sent, primitives: [...sent.primitives].sort((one, other) => one.order - other.order) };
}

/** What differs from a scene that is held (docs/reference/scene.md). */
export interface SceneChanges extends Omit<Scene, "schema" | "primitives"> {
  schema: "linewright/scene-changes/1";
  since: string;
  gone: string[];
  changed: Primitive[];
  sequence: string[] | null;
}

/** The scene that comes of the one that is held; what did not change is the very same item, so that it is not painted anew. */
export function patched(held: Scene, changes: SceneChanges): Scene {
  const { gone, changed, sequence, since: _, schema: __, ...frame } = changes;
  const items = new Map(held.primitives.map((item) => [item.id, item]));
  for (const id of gone) items.delete(id);
  for (const item of changed) items.set(item.id, item);
  const primitives = sequence === null ? [...items.values()] : sequence.map((id) => items.get(id)).filter((item) => item !== undefined);
  return { ...frame, schema: "linewright/scene/1", primitives };
}

/** What a primitive stands for that can be selected: a run by the name of its far end, which is also that of a joint or a unit. */
export function selectable(id: string): string | null {
  const found = /^(?:run|unit|node):([^/]+)/.exec(id);
  return found?.[1] ?? null;
}

/** From where to where a primitive reaches, from top to bottom [px]. */
function reach(item: Primitive): [number, number] {
  if (item.kind === "line") return [Math.min(item.y1_px, item.y2_px), Math.max(item.y1_px, item.y2_px)];
  if (item.kind === "circle") return [item.y_px - item.radius_px, item.y_px + item.radius_px];
  if (item.kind === "text") return [item.y_px - item.size_px, item.y_px + item.size_px];
  return [item.y_px, item.y_px + item.height_px];
}

/** A part of the sheet, from top to bottom [px]. */
export interface Stretch {
  top: number;
  bottom: number;
}

/** What of a scene can be seen in a part of it, and a little around: what is far away need not be painted. */
export function within(scene: Scene, part: Stretch): Primitive[] {
  return scene.primitives.filter((item) => {
    const [top, bottom] = reach(item);
    return bottom >= part.top && top <= part.bottom;
  });
}

/** What is in view, in steps, so that scrolling a little paints nothing anew. */
export function stretchOf(scrolled: number, height: number, zoom: number, step = 400): Stretch {
  const [top, bottom] = [scrolled / zoom, (scrolled + height) / zoom];
  return { top: Math.floor(top / step) * step - step, bottom: Math.ceil(bottom / step) * step + step };
}

/** Where each run is drawn, by id. */
export function runPlaces(scene: Scene): Map<string, LinePrimitive> {
  const found = new Map<string, LinePrimitive>();
  for (const item of scene.primitives) {
    if (item.kind === "line" && item.role === "run" && item.id === item.group) found.set(item.id.slice("run:".length), item);
  }
  return found;
}

/** A scene that holds the very items of the one before wherever they are the same, so that only what differs is painted. */
export function settled(scene: Scene, before: Scene | null): Scene {
  if (before === null) return scene;
  const old = new Map(before.primitives.map((item) => [item.id, item]));
  return { ...scene, primitives: scene.primitives.map((item) => same(item, old.get(item.id))) };
}

function same(item: Primitive, old: Primitive | undefined): Primitive {
  if (old === undefined) return item;
  const [mine, theirs] = [item as unknown as Record<string, unknown>, old as unknown as Record<string, unknown>];
  const names = Object.keys(mine);
  return names.length === Object.keys(theirs).length && names.every((name) => name === "order" || mine[name] === theirs[name]) ? old : item;
}
