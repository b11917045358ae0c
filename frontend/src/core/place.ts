// Where one is on the page, as it stands in the address: a reload, a bookmark or the way back lead there again.

export const TABLES = ["levels", "rooms", "units", "runs", "fittings"] as const;
export type TableKind = (typeof TABLES)[number];

export type Place =
  | { view: "sheet"; design: number | null; system: string }
  | { view: "overview"; design: number | null }
  | { view: "table"; design: number | null; system: string; kind: TableKind }
  | { view: "book"; design: number | null; book: string };

const NOWHERE: Place = { view: "sheet", design: null, system: "" };

/** The place as the part of an address behind `#`. */
export function addressOf(place: Place): string {
  const parts = place.view === "sheet" ? [place.system] : place.view === "table" ? [place.kind, place.system] : place.view === "book" ? [place.book] : [];
  const design = place.design === null ? [] : [String(place.design)];
  return `#/${[...design, place.view, ...parts].map(encodeURIComponent).join("/")}`;
}

/** The place that an address names; the first sheet where it names none. */
export function placeOf(address: string): Place {
  const parts = address.replace(/^#?\/?/, "").split("/").map(decoded);
  const number = Number(parts[0]);
  const design = /^[0-9]{1,9}$/.test(parts[0] ?? "") && number > 0 ? number : null;
  const [view, first = "", second = ""] = design === null ? parts : parts.slice(1);
  if (view === "overview") return { view, design };
  if (view === "book") return { view, design, book: first };
  const kind = TABLES.find((one) => one === first);
  if (view === "table" && kind !== undefined) return { view, design, kind, system: second };
  return view === "sheet" ? { view, design, system: first } : { ...NOWHERE, design };
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part; // an address that was typed by hand
  }
}
