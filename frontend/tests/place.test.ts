import { describe, expect, it } from "vitest";
import { addressOf, placeOf, type Place } from "../src/core/place";

const PLACES: Place[] = [
  { view: "sheet", design: 3, system: "ground" },
  { view: "sheet", design: null, system: "" },
  { view: "overview", design: 1 },
  { view: "table", design: 2, kind: "runs", system: "a/b #ü" },
  { view: "book", design: 2, book: "tidewater-r32" },
];

describe("a place on the page", () => {
  it.each(PLACES)("is read again from its address: %o", (place) => expect(placeOf(addressOf(place))).toEqual(place));
  it.each(["", "#", "#/", "#/nonsense/4", "#/table/hats", "#/0/sheet", "#/1e3/sheet", "#/99999999999/sheet"])("is the first sheet where the address names none: %s", (address) => {
    expect(placeOf(address)).toMatchObject({ view: "sheet", design: null });
  });
  it("keeps what was typed wrongly as it is", () => expect(placeOf("#/1/sheet/%E0%A4%A")).toEqual({ view: "sheet", design: 1, system: "%E0%A4%A" }));
});
