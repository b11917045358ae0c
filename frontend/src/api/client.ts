// The server, asked by the types of its own description.

import { linesOf, type Preview } from "../core/ahead";
import type { Edit, Units } from "../core/edits";
import type { TableKind } from "../core/place";
import type { Answer, Problem, Reply, Server, Table } from "../core/session";
import type { Trees } from "../core/walking";
import type { Scene } from "../core/scene";
import type { components } from "./schema";

export type Project = components["schemas"]["ProjectWhole"];
export type ProjectLine = components["schemas"]["ProjectOut"];
export type SystemLine = components["schemas"]["SystemLine"];

export interface View {
  system: string;
  axis: "actual" | "equivalent";
  units: Units | "";
  physics: boolean;
  width_px: number;
  margin_rows: number;
  /** What is changed is answered with the trees alone: the figures stand on the sheet. */
  tree: true;
  /** The mark of the scene that is held. */
  since: string;
}

export class Refused extends Error {
  constructor(readonly problem: Problem) {
    super(problem.detail);
  }
}

async function ask<T>(path: string): Promise<T> {
  const answer = await fetch(path);
  if (!answer.ok) throw new Refused((await answer.json()) as Problem);
  return (await answer.json()) as T;
}

async function send(path: string, body: unknown, method = "POST"): Promise<Reply> {
  let answer: Response;
  try {
    answer = await put(method, path, body);
  } catch {
    return { kind: "unreached" };
  }
  const data: unknown = await answer.json();
  return answer.ok ? { kind: "done", answer: data as Answer } : { kind: "refused", problem: data as Problem };
}

function put(method: string, path: string, body: unknown): Promise<Response> {
  return fetch(path, { method, headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) });
}

/** Send something that is answered at once; throws Refused. */
async function told<T>(method: string, path: string, body: unknown): Promise<T | null> {
  const answer = await put(method, path, body);
  if (!answer.ok) throw new Refused((await answer.json()) as Problem);
  return answer.status === 204 ? null : ((await answer.json()) as T);
}

export const listProjects = (): Promise<ProjectLine[]> => ask("/api/projects");
export const addProject = (name: string): Promise<ProjectLine | null> => told("POST", "/api/projects", { name });
export const showProject = (project: number): Promise<Project> => ask(`/api/projects/${project}`);
export const showDesign = (design: number): Promise<components["schemas"]["DocumentOut"]> => ask(`/api/designs/${design}`);
export const listSystems = (design: number, units: Units | ""): Promise<SystemLine[]> => ask(`/api/designs/${design}/systems?units=${units}`);
export const listSubjects = (design: number): Promise<components["schemas"]["SubjectsOut"]> => ask(`/api/designs/${design}/subjects`);
export const showWorking = (design: number, subject: string, units: Units | ""): Promise<components["schemas"]["WorkingText"]> =>
  ask(`/api/designs/${design}/working/text?${new URLSearchParams({ subject, units })}`);
export const showTrees = (design: number): Promise<Trees> => ask(`/api/designs/${design}/tree`);

export type BookLine = components["schemas"]["BookLine"];
export const listBooks = (project: number): Promise<BookLine[]> => ask(`/api/projects/${project}/books`);
export type BookModels = components["schemas"]["BookModels"];
export const bookModels = (project: number, book: string, units: Units | ""): Promise<BookModels> =>
  ask(`/api/projects/${project}/books/${encodeURIComponent(book)}/models?units=${units}`);
export const listRooms = (design: number): Promise<{ id: string; name: string }[]> => ask(`/api/designs/${design}/rooms`);

export type Revision = components["schemas"]["RevisionOut"];
export const listRevisions = (design: number, before?: number): Promise<components["schemas"]["HistoryOut"]> =>
  ask(`/api/designs/${design}/revisions?most=50${before === undefined ? "" : `&before=${before}`}`);
export const compareRevisions = (design: number, before: number, after: number): Promise<components["schemas"]["ComparedOut"]> =>
  ask(`/api/designs/${design}/compare?before=${before}&after=${after}`);

/** Give a revision a name. */
export const nameRevision = (design: number, revision: number, name: string): Promise<unknown> =>
  told("PUT", `/api/designs/${design}/revisions/${revision}/name`, { name });

export type DocumentLine = components["schemas"]["DocumentOut"];
/** Put a design into a project: the text of a file, or an empty one. */
export const addDesign = (project: number, name: string, text = ""): Promise<DocumentLine | null> =>
  told("POST", `/api/projects/${project}/designs`, { name, text });
export const addBook = (project: number, name: string, text: string): Promise<DocumentLine | null> =>
  told("POST", `/api/projects/${project}/books`, { name, text });
export const designText = (design: number): Promise<components["schemas"]["TextOut"]> => ask(`/api/designs/${design}/text`);

export type Job = components["schemas"]["JobOut"];
export const packProject = (project: number): Promise<Job | null> => told("POST", `/api/projects/${project}/jobs`, { kind: "export" });
/** Ask for the hand-over set of the last revision of a design. */
export const handOver = (project: number, design: number, options: components["schemas"]["SetOptionsIn"]): Promise<Job | null> =>
  told("POST", `/api/projects/${project}/jobs`, { kind: "hand-over", design, options });
export const showJob = (job: number): Promise<Job> => ask(`/api/jobs/${job}`);
export const stopJob = (job: number): Promise<unknown> => told("DELETE", `/api/jobs/${job}`, {});

export type TableOut = components["schemas"]["TableOut"];
export const showTable = (design: number, kind: TableKind, system: string, units: Units | ""): Promise<TableOut> =>
  ask(`/api/designs/${design}/tables/${kind}?${new URLSearchParams({ system, units })}`);

export const bookText = (project: number, book: string, form: "yaml" | "typed"): Promise<components["schemas"]["TextOut"]> =>
  ask(`/api/projects/${project}/books/${encodeURIComponent(book)}/text?form=${form}`);
/** Correct values of a book of the project. */
export const editBook = (document: number, base: number, edits: Edit[], key: string): Promise<Reply> =>
  send(`/api/books/${document}/edits`, { base, edits, key });
export const undoBook = (document: number, revision: number, key: string): Promise<Reply> =>
  send(`/api/books/${document}/undo`, { revision, key });
export const showBook = (document: number): Promise<DocumentLine> => ask(`/api/books/${document}`);

export function showScene(design: number, view: View): Promise<Scene> {
  const { tree: _, since: __, ...asked } = view;
  const words = { ...asked, physics: String(view.physics), width_px: String(view.width_px), margin_rows: String(view.margin_rows) };
  return ask(`/api/designs/${design}/scene?${new URLSearchParams(words)}`);
}

/** What edits of a revision would come to. */
export async function lookAhead(design: number, base: number, edits: readonly Edit[], view: View): Promise<Preview<SystemLine>> {
  const found = await told<Preview<SystemLine>>("POST", `/api/designs/${design}/preview`, { base, edits, view });
  if (found === null) throw new TypeError("an answer without a body");
  return found;
}

export type RoomToGrow = components["schemas"]["RoomToGrow"];
/** How far one thing may grow before something gives. */
export const roomToGrow = (design: number, system: string, subject: string, units: Units | ""): Promise<RoomToGrow> =>
  ask(`/api/designs/${design}/room?${new URLSearchParams({ system, subject, units })}`);
export type Remedies = components["schemas"]["RemediesOut"];
export type Remedy = Omit<components["schemas"]["RemedyOut"], "edits"> & { edits: Edit[] };
export type RemedyLine = Omit<components["schemas"]["RemedyLine"], "newest"> & { newest: Remedy | null };
/** Look for remedies; each line tells how far the search is, and may bring one. Giving up the signal ends it. */
export async function* findRemedies(design: number, asked: Readonly<Record<string, string>>, signal: AbortSignal): AsyncGenerator<RemedyLine> {
  const answer = await fetch(`/api/designs/${design}/remedies?${new URLSearchParams(asked)}`, { signal });
  if (!answer.ok) throw new Refused((await answer.json()) as Problem);
  if (answer.body !== null) yield* linesOf(answer.body) as AsyncGenerator<RemedyLine>;
}

/** Changes of one design; every answer brings the sheet that is looked at. */
export function serverOf(design: number, view: () => View): Server {
  const at = `/api/designs/${design}`;
  return {
    edit: (base: number, edits: Edit[], key: string) => send(`${at}/edits`, { base, edits, key, view: view() }),
    table: (base: number, { kind, ...table }: Table, key: string) => send(`${at}/tables/${kind}`, { base, ...table, key, view: view() }),
    text: (base: number, text: string, key: string) => send(`${at}/text`, { base, text, key, view: view() }, "PUT"),
    undo: (revision: number, key: string) => send(`${at}/undo`, { revision, key, view: view() }),
    restore: (revision: number, base: number, key: string) => send(`${at}/restore`, { revision, base, key, view: view() }),
  };
}

/** Hear of what others change; gives a way to stop. */
export function hear(project: number, heard: (kind: string, id: number, revision: number) => void): () => void {
  const line = new EventSource(`/api/projects/${project}/events`);
  line.addEventListener("revision", (event) => {
    const told = JSON.parse((event as MessageEvent<string>).data) as { id: number; kind: string; number: number };
    heard(told.kind, told.id, told.number);
  });
  return () => line.close();
}
