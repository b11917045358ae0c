import { describe, expect, it } from "vitest";
import { patched, received, runPlaces, selectable, settled, stretchOf, within, type SceneChanges, type Primitive, type Scene } from "../src/core/scene";

function line(id: string, role: string, order: number): Primitive {
  return { kind: "line", id, role, css: "pipe", group: id.split("/")[0] ?? id, order, x1_px: 0, y1_px: order, x2_px: 9, y2_px: order, stroke_px: 1 };
}

const scene = {
  schema: "linewright/scene/1",
  primitives: [line("run:J2", "run", 3), line("run:J1", "run", 1), line("run:J1/leg", "leg", 2), line("unit:U1", "lane", 0)],
} as unknown as Scene;

describe("a scene", () => {
  it("is painted in its order", () => expect(received(scene).primitives.map((item) => item.order)).toEqual([0, 1, 2, 3]));
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
  it("is not painted anew because something else is painted before it", () => {
    const later = { ...scene, primitives: [{ ...line("run:J2", "run", 3), order: 4 } as Primitive] } as Scene;
    expect(settled(later, scene).primitives[0]).toBe(scene.primitives[0]);
  });
});

describe("what differs", () => {
  const held = received(scene);
  const none: SceneChanges = { ...(scene as object), schema: "linewright/scene-changes/1", since: "a", drawn: "b", gone: [], changed: [], sequence: null } as unknown as SceneChanges;
  it("leaves what stays as it is", () => {
    const next = patched(held, { ...none, changed: [{ ...line("run:J1", "run", 1), x2_px: 12 } as Primitive], gone: ["unit:U1"] });
    expect(next.primitives.map((item) => item.id)).toEqual(["run:J1", "run:J1/leg", "run:J2"]);
    expect(next.primitives[2]).toBe(held.primitives[3]);
    expect(next.primitives[0]).toMatchObject({ x2_px: 12 });
    expect([next.drawn, next.schema]).toEqual(["b", "linewright/scene/1"]);
  });
  it("puts what is new where it belongs", () => {
    const sequence = ["unit:U1", "run:J9", "run:J1", "run:J1/leg", "run:J2"];
    const next = patched(held, { ...none, changed: [line("run:J9", "run", 1)], sequence });
    expect(next.primitives.map((item) => item.id)).toEqual(sequence);
  });
});

describe("what is in view", () => {
  it("is painted, with what reaches into it, and no more", () => {
    const tall = { ...line("run:J8", "run", 0), y1_px: -500, y2_px: 500 } as Primitive;
    const whole = { ...scene, primitives: [tall, ...[0, 100, 900].map((y) => line(`run:at${y}`, "run", y))] } as Scene;
    expect(within(whole, { top: 50, bottom: 400 }).map((item) => item.id)).toEqual(["run:J8", "run:at100"]);
  });
  it("goes on by steps, with a step around it", () => {
    expect(stretchOf(0, 700, 1)).toEqual({ top: -400, bottom: 1200 });
    expect(stretchOf(10, 700, 1)).toEqual(stretchOf(90, 700, 1));
    expect(stretchOf(1000, 700, 2)).toEqual({ top: 0, bottom: 1600 });
  });
});
