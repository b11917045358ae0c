import { describe, expect, it } from "vitest";
import { painted, runPlaces, selectable, settled, type Primitive, type Scene } from "../src/core/scene";

function line(id: string, role: string, order: number): Primitive {
  return { kind: "line", id, role, css: "pipe", group: id.split("/")[0] ?? id, order, x1_px: 0, y1_px: order, x2_px: 9, y2_px: order, stroke_px: 1 };
}

const scene = {
  schema: "linewright/scene/1",
  primitives: [line("run:J2", "run", 3), line("run:J1", "run", 1), line("run:J1/leg", "leg", 2), line("unit:U1", "lane", 0)],
} as unknown as Scene;

describe("a scene", () => {
  it("is painted in its order", () => expect(painted(scene).map((item) => item.order)).toEqual([0, 1, 2, 3]));
  it("says where runs are drawn", () => expect([...runPlaces(scene).keys()].sort()).toEqual(["J1", "J2"]));
  it("says what can be selected", () => {
    expect(selectable("run:J2")).toBe("J2");
    expect(selectable("unit:U1")).toBe("U1");
    expect(selectable("node:J 1/tag")).toBe("J 1");
    expect(selectable("limit:total_length")).toBeNull();
  });
  it("holds what stayed the same as it was, and nothing else", () => {
    const next = { ...scene, primitives: [line("run:J2", "run", 3), { ...line("run:J1", "run", 1), x2_px: 12 }, line("run:J9", "run", 4)] } as Scene;
    const kept = settled(next, scene).primitives;
    expect(kept[0]).toBe(scene.primitives[0]);
    expect(kept.slice(1)).toEqual(next.primitives.slice(1));
    expect(settled(scene, null)).toBe(scene);
  });
  it("does not hold what lost or gained something", () => {
    const titled = { ...scene, primitives: [{ ...line("run:J2", "run", 3), title: "14 m" } as Primitive] } as Scene;
    expect(settled(titled, scene).primitives[0]).toBe(titled.primitives[0]);
    expect(settled(scene, titled).primitives[0]).toBe(scene.primitives[0]);
  });
});
