// How large the sheet is shown. Nothing is drawn anew for it.

export const LEAST = 0.1;
export const MOST = 4;
const STEP = 1.2;

export interface Size {
  width: number;
  height: number;
}

/** One step larger or smaller. */
export function stepped(zoom: number, larger: boolean): number {
  return bounded(larger ? zoom * STEP : zoom / STEP);
}

/** The whole sheet in view, never larger than it is drawn. */
export function whole(sheet: Size, room: Size): number {
  return bounded(Math.min(1, room.width / sheet.width, room.height / sheet.height));
}

/** All of its width in view, so that only its lanes scroll; no smaller than can be read. */
export function across(sheet: Size, room: Size, readable = 0.8): number {
  return Math.max(readable, Math.min(1, room.width / sheet.width));
}

export function bounded(zoom: number): number {
  return Math.min(MOST, Math.max(LEAST, zoom));
}

/** Where to scroll so that what reaches from one place to another is in view; nowhere where it is. */
export function brought(from: number, to: number, scroll: number, room: number): number | null {
  if (from < scroll) return Math.max(0, from);
  return to > scroll + room ? to - room : null;
}

/** How far to scroll so that what is under the pointer stays there. */
export function scrolled(at: number, scroll: number, before: number, after: number): number {
  return ((scroll + at) * after) / before - at;
}
