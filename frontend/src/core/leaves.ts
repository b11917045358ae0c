// A tall sheet over several pages of paper: parted between what stands on it, not through it.

import type { Primitive, Scene, Stretch } from "./scene";

/** Height of an upright page for its width, within its margins: of letter, which is the lowest that is usual. */
const UPRIGHT = 1.3;
/** What is taller than this goes over a page's end: bands, axes, lines of a limit [px]. */
const WHOLE_PX = 60;
/** A page is filled by so much at least, whatever stands at its end. */
const FILLED = 0.6;

/** The pages of a sheet from top to bottom; one where it fits. */
export function leaves(scene: Scene, upright = UPRIGHT): Stretch[] {
  const tallest = scene.width_px * upright;
  const whole = scene.primitives.map(extent).filter(({ top, bottom }) => bottom - top <= WHOLE_PX);
  const found: Stretch[] = [];
  for (let top = 0; top < scene.height_px; ) {
    const end = top + tallest;
    const bottom = end >= scene.height_px ? scene.height_px : parting(whole, end, top + tallest * FILLED);
    found.push({ top, bottom });
    top = bottom;
  }
  return found;
}

/** The lowest place above `end` that parts nothing; where there is none under `least`, the one that parts least. */
function parting(whole: readonly Stretch[], end: number, least: number): number {
  for (let at = end; at >= least; ) {
    const cut = whole.filter(({ top, bottom }) => top < at && bottom > at);
    if (cut.length === 0) return at;
    at = Math.min(...cut.map(({ top }) => top));
  }
  return leastParting(whole.filter(({ top, bottom }) => top < end && bottom > least), end, least);
}

/** The lowest place between `least` and `end` that parts the fewest: only at an edge of one could there be fewer. */
function leastParting(near: readonly Stretch[], end: number, least: number): number {
  const places = [...new Set([end, ...near.flatMap(({ top, bottom }) => [top, bottom])])].filter((at) => at >= least && at <= end);
  const parted = (at: number): number => near.filter(({ top, bottom }) => top < at && bottom > at).length;
  return places.map((at) => ({ at, parts: parted(at) })).reduce((best, one) => (one.parts < best.parts || (one.parts === best.parts && one.at > best.at) ? one : best)).at;
}

function extent(item: Primitive): Stretch {
  if (item.kind === "line") return { top: Math.min(item.y1_px, item.y2_px), bottom: Math.max(item.y1_px, item.y2_px) };
  if (item.kind === "circle") return { top: item.y_px - item.radius_px, bottom: item.y_px + item.radius_px };
  if (item.kind === "text") return { top: item.y_px - item.size_px, bottom: item.y_px + item.size_px * 0.3 };
  return { top: item.y_px, bottom: item.y_px + item.height_px };
}
