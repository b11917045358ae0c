// Building a tree by gestures: each is one list of edits, made or refused as a whole.

import type { Edit } from "./edits";
import { withUnit, type Units } from "./edits";

/** What is said of a new unit; `at` is how far along a unit's run a joint is put for it. */
export interface NewUnit {
  model: string;
  length: string;
  room: string;
  at: string;
}

/** What is said of a new system. */
export interface NewSystem {
  id: string;
  book: string;
  modules: string[];
  model: string;
  length: string;
}

/** The first free name of a kind: U1, U2, ... */
export function nextName(prefix: string, taken: Iterable<string>): string {
  const names = new Set(taken);
  let number = 1;
  while (names.has(`${prefix}${number}`)) number += 1;
  return `${prefix}${number}`;
}

/** Hang a unit on the far node of a run; on a unit's own run behind a new joint. */
export function addUnit(system: string, at: { run: string; endsAtUnit: boolean }, unit: NewUnit, names: readonly string[], units: Units): Edit[] {
  const id = nextName("U", names);
  const stated = { id, model: unit.model, ...(unit.room === "" ? {} : { room: unit.room }) };
  const from = at.endsAtUnit ? nextName("J", names) : at.run;
  const add = { edit: "add", system, runs: [{ from, to: id, length: withUnit(unit.length, units) }], units: [stated] };
  return at.endsAtUnit ? [splitRun(system, at.run, from, unit.at, units), add] : [add];
}

/** Put a joint on a run, so far from its near end. */
export function splitRun(system: string, run: string, node: string, at: string, units: Units): Edit {
  return { edit: "split", system, run, node, at: withUnit(at, units) };
}

/** Make a joint a header, and a header a joint. */
export function turnHeader(system: string, node: string, kind: string): Edit {
  return { edit: "change_kind", system, fitting: node, kind: kind === "header" ? "unknown" : "header" };
}

/** Hang a run, with all beyond it, on another node. */
export function moveBranch(system: string, node: string, to: string): Edit {
  return { edit: "move", system, node, to };
}

/** A system with one unit, from which it grows. */
export function newSystem(said: NewSystem, units: Units): Edit {
  const runs = [{ from: "outdoor", to: "U1", length: withUnit(said.length, units) }];
  const outdoor = { modules: said.modules.map((model) => ({ model })) };
  return { edit: "add_system", added: { id: said.id, book: said.book, outdoor, units: [{ id: "U1", model: said.model }], runs } };
}

/** What a book offers, with what it can: `cassette 4.5 (cools 4.5 kW, heats 5 kW)`. */
export function offered(one: { model: string; cooling: string; heating: string }): string {
  const capacities = [one.cooling && `cools ${one.cooling}`, one.heating && `heats ${one.heating}`].filter((text) => text !== "");
  return capacities.length === 0 ? one.model : `${one.model} (${capacities.join(", ")})`;
}
