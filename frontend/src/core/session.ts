// One design that is worked on: what is sent, what came of it, what can be undone. Knows no page.

import type { Edit } from "./edits";
import type { TableKind } from "./place";

export interface Answer {
  revision: { number: number; note: string };
  rebased: boolean;
  tree: unknown;
  scene: unknown;
  scene_changes: unknown;
}

export interface Fault {
  message: string;
  expected: string;
  value: string;
  path?: string;
  file?: string;
  line?: number;
  column?: number;
}

export interface Problem {
  status: number;
  detail: string;
  head?: number;
  conflicts?: { element: string; field: string; base: unknown; mine: unknown; theirs: unknown }[];
  faults?: Fault[];
}

export type Reply = { kind: "done"; answer: Answer } | { kind: "refused"; problem: Problem } | { kind: "unreached" };

/** A table of a design, or part of one, as text with headings; `remove` takes away what it leaves out. */
export interface Table {
  kind: TableKind;
  system: string;
  text: string;
  remove: boolean;
}

export interface Server {
  edit(base: number, edits: Edit[], key: string): Promise<Reply>;
  table(base: number, table: Table, key: string): Promise<Reply>;
  text(base: number, text: string, key: string): Promise<Reply>;
  undo(revision: number, key: string): Promise<Reply>;
  restore(revision: number, base: number, key: string): Promise<Reply>;
}

interface Waiting {
  key: string;
  send: () => Promise<Reply>;
  made: (revision: number) => void;
}

export type Standing =
  | { kind: "saved" }
  | { kind: "sending" }
  | { kind: "unreached"; waiting: number }
  | { kind: "refused"; problem: Problem };

/** Sends one change after another. One that could not be sent waits, with its key, and is sent again. */
export class Session {
  head: number;
  standing: Standing = { kind: "saved" };
  readonly undoable: number[] = [];
  readonly redoable: number[] = [];
  private readonly waiting: Waiting[] = [];
  private busy = false;
  private keys = 0;

  constructor(
    private readonly server: Server,
    head: number,
    private readonly name: string,
    private readonly changed: (answer: Answer | null) => void,
  ) {
    this.head = head;
  }

  /** Make one gesture: it can be taken back as one. */
  edit(edits: Edit[]): Promise<void> {
    return this.gesture((key) => this.server.edit(this.head, edits, key));
  }

  /** Make a table's changes, all of them as one gesture. */
  table(table: Table): Promise<void> {
    return this.gesture((key) => this.server.table(this.head, table, key));
  }

  /** Put a whole text in place of the design; a gesture like any other. */
  text(text: string): Promise<void> {
    return this.gesture((key) => this.server.text(this.head, text, key));
  }

  /** Make the design what it was at a revision; a gesture like any other. */
  restore(revision: number): Promise<void> {
    return this.gesture((key) => this.server.restore(revision, this.head, key));
  }

  /** Take back the last gesture that was made here. */
  undo(): Promise<void> {
    const revision = this.undoable.pop();
    if (revision === undefined) return Promise.resolve();
    return this.put((key) => this.server.undo(revision, key), (made) => this.redoable.push(made));
  }

  /** Make again what was taken back last. */
  redo(): Promise<void> {
    const revision = this.redoable.pop();
    if (revision === undefined) return Promise.resolve();
    return this.put((key) => this.server.undo(revision, key), (made) => this.undoable.push(made));
  }

  /** Leave a refusal behind: something else is begun. */
  forget(): void {
    if (this.standing.kind === "refused") this.stand({ kind: "saved" });
  }

  /** Send again what waits, as after a broken line. */
  retry(): Promise<void> {
    return this.work();
  }

  private gesture(send: (key: string) => Promise<Reply>): Promise<void> {
    return this.put(send, (revision) => {
      this.undoable.push(revision);
      this.redoable.length = 0;
    });
  }

  private put(send: (key: string) => Promise<Reply>, made: (revision: number) => void): Promise<void> {
    const key = `${this.name}-${++this.keys}`;
    this.waiting.push({ key, send: () => send(key), made });
    return this.work();
  }

  private async work(): Promise<void> {
    if (this.busy) return;
    this.busy = true;
    try {
      for (let next = this.waiting[0]; next !== undefined; next = this.waiting[0]) {
        this.stand({ kind: "sending" });
        const reply = await next.send();
        if (reply.kind === "unreached") {
          this.stand({ kind: "unreached", waiting: this.waiting.length });
          return;
        }
        this.waiting.shift();
        if (reply.kind === "refused") {
          this.stand({ kind: "refused", problem: reply.problem });
          continue;
        }
        this.head = reply.answer.revision.number;
        next.made(this.head);
        this.standing = { kind: "saved" };
        this.changed(reply.answer);
      }
    } finally {
      this.busy = false;
    }
  }

  private stand(standing: Standing): void {
    this.standing = standing;
    this.changed(null);
  }
}

/** What a refusal says, in one line. */
export function refusal(problem: Problem): string {
  const conflict = problem.conflicts?.[0];
  if (conflict !== undefined) {
    const { element, field, base, mine, theirs } = conflict;
    return `${field} of ${element} was changed meanwhile: it was ${told(base)}, you wanted ${told(mine)}, it is ${told(theirs)} now`;
  }
  const fault = problem.faults?.[0];
  return fault === undefined ? problem.detail : toldOf(fault);
}

/** Everything that a refusal says, each with the row of the table where it stands. */
export function refusals(problem: Problem): string[] {
  const faults = problem.faults ?? [];
  if (faults.length === 0 || problem.conflicts !== undefined) return [refusal(problem)];
  return faults.map((fault) => (fault.line ? `${fault.file === "table" ? "row" : "line"} ${fault.line}: ${toldOf(fault)}` : toldOf(fault)));
}

function toldOf(fault: Fault): string {
  return fault.expected ? `${fault.message}; expected ${fault.expected}` : fault.message;
}

function told(value: unknown): string {
  return value === null || value === undefined ? "not there" : typeof value === "string" ? value : JSON.stringify(value);
}
