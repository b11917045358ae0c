// The server, asked by the types of its own description.

import type { Edit, Units } from "../core/edits";
import type { Answer, Problem, Reply, Server } from "../core/session";
import type { Judged } from "../core/walking";
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

async function send(path: string, body: unknown): Promise<Reply> {
  let answer: Response;
  try {
    answer = await fetch(path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) });
  } catch {
    return { kind: "unreached" };
  }
  const data: unknown = await answer.json();
  return answer.ok ? { kind: "done", answer: data as Answer } : { kind: "refused", problem: data as Problem };
}

export const listProjects = (): Promise<ProjectLine[]> => ask("/api/projects");
export const showProject = (project: number): Promise<Project> => ask(`/api/projects/${project}`);
export const showDesign = (design: number): Promise<components["schemas"]["DocumentOut"]> => ask(`/api/designs/${design}`);
export const listSystems = (design: number): Promise<SystemLine[]> => ask(`/api/designs/${design}/systems`);
export const listSubjects = (design: number): Promise<components["schemas"]["SubjectsOut"]> => ask(`/api/designs/${design}/subjects`);
export const showWorking = (design: number, subject: string, units: Units | ""): Promise<components["schemas"]["WorkingText"]> =>
  ask(`/api/designs/${design}/working/text?${new URLSearchParams({ subject, units })}`);
export const showEvaluation = (design: number): Promise<Judged> => ask(`/api/designs/${design}/evaluation`);

export const listBooks = (project: number): Promise<components["schemas"]["BookLine"][]> => ask(`/api/projects/${project}/books`);
export const bookModels = (project: number, book: string): Promise<components["schemas"]["BookModels"]> =>
  ask(`/api/projects/${project}/books/${encodeURIComponent(book)}/models`);
export const listRooms = (design: number): Promise<{ id: string; name: string }[]> => ask(`/api/designs/${design}/rooms`);

export type Revision = components["schemas"]["RevisionOut"];
export const listRevisions = (design: number, before?: number): Promise<components["schemas"]["HistoryOut"]> =>
  ask(`/api/designs/${design}/revisions?most=50${before === undefined ? "" : `&before=${before}`}`);
export const compareRevisions = (design: number, before: number, after: number): Promise<components["schemas"]["ComparedOut"]> =>
  ask(`/api/designs/${design}/compare?before=${before}&after=${after}`);

/** Give a revision a name. */
export async function nameRevision(design: number, revision: number, name: string): Promise<void> {
  const answer = await fetch(`/api/designs/${design}/revisions/${revision}/name`, {
    method: "PUT",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify({ name }),
  });
  if (!answer.ok) throw new Refused((await answer.json()) as Problem);
}

/** Put an empty design into a project. */
export async function addDesign(project: number, name: string): Promise<components["schemas"]["DocumentOut"]> {
  const answer = await fetch(`/api/projects/${project}/designs`, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify({ name }),
  });
  if (!answer.ok) throw new Refused((await answer.json()) as Problem);
  return (await answer.json()) as components["schemas"]["DocumentOut"];
}

export function showScene(design: number, view: View): Promise<Scene> {
  const words = { ...view, physics: String(view.physics), width_px: String(view.width_px) };
  return ask(`/api/designs/${design}/scene?${new URLSearchParams(words)}`);
}

/** Changes of one design; every answer brings the sheet that is looked at. */
export function serverOf(design: number, view: () => View): Server {
  const at = `/api/designs/${design}`;
  return {
    edit: (base: number, edits: Edit[], key: string) => send(`${at}/edits`, { base, edits, key, view: view() }),
    undo: (revision: number, key: string) => send(`${at}/undo`, { revision, key, view: view() }),
    restore: (revision: number, base: number, key: string) => send(`${at}/restore`, { revision, base, key, view: view() }),
  };
}

/** Hear of what others change; gives a way to stop. */
export function hear(project: number, heard: (id: number, revision: number) => void): () => void {
  const line = new EventSource(`/api/projects/${project}/events`);
  line.addEventListener("revision", (event) => {
    const told = JSON.parse((event as MessageEvent<string>).data) as { id: number; kind: string; number: number };
    if (told.kind === "design") heard(told.id, told.number);
  });
  return () => line.close();
}
