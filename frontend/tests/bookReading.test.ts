import { describe, expect, it } from "vitest";
import { holding, partsOf, rowAdded, rowRemoved } from "../src/core/bookReading";

const BOOK = {
  id: "b",
  document: { title: "Rules", edition: "3" },
  indoor: { models: [{ model: "cassette 3.6", index: "3.6" }, { model: "duct 7", gas: "15.88 mm" }], page: "3" },
  charge: { liquid: { "12.7 mm": "0.093 kg/m", "9.52 mm": "0.048 kg/m", "6.35 mm": "0.02 kg/m", "15.88 mm": "0.1 kg/m", "19.05 mm": "0.2 kg/m" } },
  limits: [{ measure: "main_length", max: "110 m", page: "20" }],
  sizing: { branch: { rows: [{ to: "5", gas: "12.7 mm" }], page: "9" } },
};

describe("a book on the page", () => {
  const parts = partsOf(BOOK);
  it("begins with what is said of itself", () => {
    expect(parts.map((part) => part.name)).toEqual(["about", "indoor", "charge", "limits", "sizing"]);
    expect(parts[0]?.fields).toEqual([
      { name: "id", at: "id", value: "b" },
      { name: "document", at: "document", value: "{title: Rules, edition: 3}" },
    ]);
  });
  it("tells the page on which a part stands", () => expect(parts[1]?.page).toBe("3"));
  it("shows items that are alike as a table, each value with the path of its correction", () => {
    const models = parts[1]?.parts[0];
    expect(models?.table?.heads).toEqual(["model", "index", "gas"]);
    expect(models?.table?.rows[1]).toEqual([
      { name: "model", at: "indoor.models[1].model", value: "duct 7" },
      { name: "index", at: "indoor.models[1].index", value: "" },
      { name: "gas", at: "indoor.models[1].gas", value: "15.88 mm" },
    ]);
    expect(parts[4]?.parts[0]?.parts[0]?.table?.rows[0]?.[1]?.at).toBe("sizing.branch.rows[0].gas");
  });
  it("names an entry by its key, sizes in brackets", () => {
    expect(parts[2]?.parts[0]?.fields[0]).toEqual({ name: "12.7 mm", at: "charge.liquid[12.7 mm]", value: "0.093 kg/m" });
  });
  it("says how a row is added and taken away", () => {
    const models = parts[1]?.parts[0];
    expect(models?.table?.keys).toEqual(["model", "index", "gas"]);
    expect(rowAdded("indoor.models", models?.table?.keys ?? [], ["wall 2", " ", "9.52 mm"])).toEqual({ edit: "insert", at: "indoor.models", item: { model: "wall 2", gas: "9.52 mm" } });
    expect(rowAdded("pages", [], ["7"])).toEqual({ edit: "insert", at: "pages", item: "7" });
    expect(rowAdded("pages", ["a"], [" "])).toBeNull();
    expect(rowRemoved(models?.table?.ats[1] ?? "")).toEqual({ edit: "remove", at: "indoor.models[1]" });
  });
  it("still names a row by its own place when others are left out", () => {
    expect(holding(parts, "DUCT")[0]?.parts[0]?.table?.ats).toEqual(["indoor.models[1]"]);
  });
  it("keeps what holds a word", () => {
    expect(holding(parts, "DUCT")[0]?.parts[0]?.table?.rows).toHaveLength(1);
    expect(holding(parts, "limits")[0]?.table?.rows).toHaveLength(1);
    expect(holding(parts, "nowhere")).toEqual([]);
    expect(holding(parts, " ")).toHaveLength(5);
  });
});

describe("supplies and condensate", () => {
  it("are rows of a table of their own, with several models and figures in one cell", () => {
    const book = {
      indoor: {
        page: 5,
        electrical: {
          page: 35,
          rows: [
            { model: ["wall 2.2", "wall 2.8"], phases: 1, voltage: ["208 V", "230 V"] },
            { model: ["floor 4.5"], input: "35 W" },
          ],
        },
      },
    };
    const indoor = partsOf(book)[1];
    const electrical = indoor?.parts[0];
    expect([electrical?.name, electrical?.page]).toEqual(["electrical", "35"]);
    const table = electrical?.parts[0]?.table;
    expect(table?.heads).toEqual(["model", "phases", "voltage", "input"]);
    expect(table?.rows.map((row) => row.map((one) => one.value))).toEqual([
      ["[wall 2.2, wall 2.8]", "1", "[208 V, 230 V]", ""],
      ["[floor 4.5]", "", "", "35 W"],
    ]);
    expect(table?.rows[0]?.[2]?.at).toBe("indoor.electrical.rows[0].voltage");
  });
});
