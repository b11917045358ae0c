// A book as it is read on the page: its JSON form (docs/reference/formats.md), each value with the path of its correction.

import type { Edit } from "./edits";

export type Value = string | number | boolean | null | Value[] | { [key: string]: Value };
type Entries = { [key: string]: Value };

/** One value of a book: `at` is the path by which an edit of the book names it. */
export interface Field {
  name: string;
  at: string;
  value: string;
}

/** A part of a book: fields that stand by themselves, tables of items that are alike, parts within it. */
export interface Part {
  name: string;
  at: string;
  page: string;
  fields: Field[];
  table: Rows | null;
  parts: Part[];
}

/** Items that are alike, by rows; `keys` are those of an item, none where items are plain values. */
export interface Rows {
  heads: string[];
  keys: string[];
  rows: Field[][];
  /** Where each row stands, as an edit of the book names it. */
  ats: string[];
}

/** A value that stands in one place: no list of items and no mapping. */
function isPlain(value: Value): value is string | number | boolean | null {
  return value === null || typeof value !== "object";
}

function isEntries(value: Value | undefined): value is Entries {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** A list of plain values stands in one place as well. */
function isShort(value: Value): boolean {
  return isPlain(value) || (Array.isArray(value) && value.every(isPlain)) || (isEntries(value) && isSmall(value));
}

function isSmall(entries: Entries): boolean {
  const values = Object.values(entries);
  return values.length <= 4 && values.every(isPlain);
}

/** A value as it is written in one line, as a book has it. */
export function written(value: Value): string {
  if (value === null) return "unknown";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (Array.isArray(value)) return `[${value.map(written).join(", ")}]`;
  if (typeof value === "object") return `{${Object.entries(value).map(([key, one]) => `${key}: ${written(one)}`).join(", ")}}`;
  return String(value);
}

/** Words of a key. */
export function worded(key: string): string {
  return key.replaceAll("_", " ");
}

/** A key as a step of a path; what is no plain word stands in brackets. */
function step(at: string, key: string): string {
  if (!/^[A-Za-z_][A-Za-z0-9_]*$/.test(key)) return `${at}[${key}]`;
  return at === "" ? key : `${at}.${key}`;
}

/** The parts of a book, in its own order; first what is said of the book itself. */
export function partsOf(book: Entries): Part[] {
  const about = Object.entries(book).filter(([, value]) => isShort(value));
  const rest = Object.entries(book).filter(([, value]) => !isShort(value));
  const first: Part = { name: "about", at: "", page: "", fields: about.map(([key, value]) => field("", key, value)), table: null, parts: [] };
  return [first, ...rest.map(([key, value]) => partOf(worded(key), key, value))];
}

function field(at: string, key: string, value: Value): Field {
  return { name: worded(key), at: step(at, key), value: written(value) };
}

function partOf(name: string, at: string, value: Value): Part {
  const page = isEntries(value) && value["page"] !== undefined ? written(value["page"]) : "";
  if (Array.isArray(value)) return ofList(name, at, value);
  const entries = Object.entries(isEntries(value) ? value : {}).filter(([key]) => key !== "page");
  const fields = entries.filter(([, one]) => isShort(one)).map(([key, one]) => field(at, key, one));
  const parts = entries.filter(([, one]) => !isShort(one)).map(([key, one]) => partOf(worded(key), step(at, key), one));
  return { name, at, page, fields, table: null, parts };
}

/** Items that are alike are rows of a table; what of them does not fit into a cell is a part of its own. */
function ofList(name: string, at: string, items: Value[]): Part {
  const part: Part = { name, at, page: "", fields: [], table: null, parts: [] };
  const entries = items.map((item) => (isEntries(item) ? item : null));
  const heads = [...new Set(entries.flatMap((item) => (item === null ? [] : Object.keys(item).filter((key) => isShort(item[key] ?? null)))))];
  const rows = items.map((item, i) => {
    const here = `${at}[${i}]`;
    if (!isEntries(item)) return [{ name: "", at: here, value: written(item) }];
    return heads.map((key) => ({ name: worded(key), at: step(here, key), value: item[key] === undefined ? "" : written(item[key]) }));
  });
  part.table = { heads: heads.length > 0 ? heads.map(worded) : [name], keys: heads, rows, ats: items.map((_, i) => `${at}[${i}]`) };
  entries.forEach((item, i) => {
    if (item === null) return;
    for (const [key, value] of Object.entries(item)) {
      if (!isShort(value)) part.parts.push(partOf(`${nameOf(item, i)}: ${worded(key)}`, step(`${at}[${i}]`, key), value));
    }
  });
  return part;
}

/** The edit that puts a row behind the last one, of what was typed under each head; none where nothing was. */
export function rowAdded(at: string, keys: readonly string[], typed: readonly string[]): Edit | null {
  const stated = typed.map((text) => text.trim());
  if (stated.every((text) => text === "")) return null;
  const item = keys.length === 0 ? (stated[0] ?? "") : Object.fromEntries(keys.map((key, i) => [key, stated[i] ?? ""]).filter(([, text]) => text !== ""));
  return { edit: "insert", at, item };
}

/** The edit that takes a row away. */
export function rowRemoved(at: string): Edit {
  return { edit: "remove", at };
}

function nameOf(item: Entries, at: number): string {
  const name = item["id"] ?? item["model"] ?? item["name"] ?? item["measure"];
  return name === undefined ? `${at + 1}` : written(name);
}

/** The parts that hold a word, in their names or values; all of them where none is asked for. */
export function holding(parts: readonly Part[], word: string): Part[] {
  const wanted = word.trim().toLocaleLowerCase();
  if (wanted === "") return [...parts];
  return parts.map((part) => kept(part, wanted)).filter((part) => part !== null);
}

function kept(part: Part, wanted: string): Part | null {
  const says = (text: string): boolean => text.toLocaleLowerCase().includes(wanted);
  if (says(part.name)) return part;
  const fields = part.fields.filter((one) => says(one.name) || says(one.value));
  const held = part.table?.rows.map((row) => row.some((one) => says(one.value))) ?? [];
  const rows = part.table?.rows.filter((_, i) => held[i]) ?? [];
  const parts = holding(part.parts, wanted);
  if (fields.length + rows.length + parts.length === 0) return null;
  return { ...part, fields, table: part.table === null || rows.length === 0 ? null : { ...part.table, rows, ats: part.table.ats.filter((_, i) => held[i]) }, parts };
}
