import { describe, expect, it } from "vitest";
import { leaves } from "../src/core/leaves";
import type { Primitive, Scene } from "../src/core/scene";

function text(y_px: number): Primitive {
  return { kind: "text", id: `t${y_px}`, role: "lane", css: "label", group: "g", order: 0, x_px: 0, y_px, text: "x", size_px: 12, weight: "regular", anchor: "start" };
}

function band(y_px: number, height_px: number): Primitive {
  return { kind: "rect", id: `b${y_px}`, role: "band", css: "band", group: "g", order: 0, x_px: 0, y_px, width_px: 100, height_px };
}

function scene(height_px: number, primitives: Primitive[]): Scene {
  return { width_px: 100, height_px, primitives } as unknown as Scene;
}

describe("a sheet on paper", () => {
  it("stands on one page where it fits", () => expect(leaves(scene(130, [text(125)]))).toEqual([{ top: 0, bottom: 130 }]));

  it("is parted so that nothing is lost and nothing stands twice", () => {
    const found = leaves(scene(1000, Array.from({ length: 66 }, (_, i) => text(15 * i + 12))));
    expect(found[0]?.top).toBe(0);
    expect(found.at(-1)?.bottom).toBe(1000);
    found.slice(1).forEach((page, i) => expect(page.top).toBe(found[i]?.bottom));
    expect(Math.max(...found.map((page) => page.bottom - page.top))).toBeLessThanOrEqual(130);
  });

  it("is not parted through a line of text", () => {
    const lines = Array.from({ length: 49 }, (_, i) => 20 * i + 12);
    for (const { bottom } of leaves(scene(1000, lines.map(text)))) {
      expect(lines.every((y) => bottom <= y - 12 || bottom >= y + 3.6)).toBe(true);
    }
  });

  it("is parted through what is taller than a page has room for", () => {
    expect(leaves(scene(300, [band(0, 300)]))).toEqual([{ top: 0, bottom: 130 }, { top: 130, bottom: 260 }, { top: 260, bottom: 300 }]);
  });

  it("is parted between rows where no place is free of all", () => {
    const rows = Array.from({ length: 49 }, (_, i) => 20 * i + 12);
    const beside = Array.from({ length: 100 }, (_, i) => band(10 * i, 12));
    for (const { bottom } of leaves(scene(1000, [...rows.map(text), ...beside]))) {
      expect(rows.every((y) => bottom <= y - 12 || bottom >= y + 3.6)).toBe(true);
    }
  });

  it("is parted anyhow where there is no place", () => {
    const dense = Array.from({ length: 300 }, (_, i) => band(i, 20));
    expect(leaves(scene(300, dense))[0]).toEqual({ top: 0, bottom: 130 });
  });
});
