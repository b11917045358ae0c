import { describe, expect, it } from "vitest";
import { LEAST, MOST, across, brought, scrolled, stepped, whole } from "../src/core/zoom";

const SHEET = { width: 1280, height: 2400 };

describe("how large the sheet is shown", () => {
  it("goes by steps that undo each other, within bounds", () => {
    expect(stepped(stepped(1, true), false)).toBeCloseTo(1);
    expect(stepped(MOST, true)).toBe(MOST);
    expect(stepped(LEAST, false)).toBe(LEAST);
  });
  it("shows all of it, never larger than it is drawn", () => {
    expect(whole(SHEET, { width: 1280, height: 1200 })).toBe(0.5);
    expect(whole(SHEET, { width: 4000, height: 4000 })).toBe(1);
  });
  it("shows all of its width as long as it can be read", () => {
    expect(across(SHEET, { width: 1152, height: 700 })).toBe(0.9);
    expect(across(SHEET, { width: 400, height: 700 })).toBe(0.8);
    expect(across(SHEET, { width: 3000, height: 700 })).toBe(1);
  });
  it("keeps what is under the pointer there", () => {
    const scroll = scrolled(200, 100, 1, 2);
    expect((scroll + 200) / 2).toBe(300);
  });
  it("brings what is out of view into it, and moves nothing else", () => {
    expect(brought(100, 200, 50, 400)).toBeNull();
    expect(brought(20, 60, 50, 400)).toBe(20);
    expect(brought(500, 560, 50, 400)).toBe(160);
    expect(brought(-8, 60, 50, 400)).toBe(0);
  });
});
