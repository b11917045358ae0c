import { describe, expect, it } from "vitest";
import { Session, refusal, refusals, type Reply, type Server, type Table } from "../src/core/session";

/** A server that keeps revisions, knows a key that it has seen, and can be out of reach or refuse. */
class Kept implements Server {
  head = 1;
  reached = true;
  refuses: Reply | null = null;
  readonly seen = new Map<string, number>();
  readonly asked: string[] = [];

  edit(base: number, _: unknown[], key: string): Promise<Reply> {
    return this.make(`edit on ${base}`, key);
  }

  table(base: number, table: Table, key: string): Promise<Reply> {
    return this.make(`${table.kind} on ${base}`, key);
  }

  text(base: number, text: string, key: string): Promise<Reply> {
    return this.make(`${text} on ${base}`, key);
  }

  undo(revision: number, key: string): Promise<Reply> {
    return this.make(`undo ${revision}`, key);
  }

  restore(revision: number, base: number, key: string): Promise<Reply> {
    return this.make(`restore ${revision} on ${base}`, key);
  }

  private make(what: string, key: string): Promise<Reply> {
    if (!this.reached) return Promise.resolve({ kind: "unreached" });
    this.asked.push(what);
    if (this.refuses !== null) return Promise.resolve(this.refuses);
    const number = this.seen.get(key) ?? ++this.head;
    this.seen.set(key, number);
    return Promise.resolve({ kind: "done", answer: { revision: { number, note: "" }, rebased: false, tree: null, scene: null, scene_changes: null } });
  }
}

function begun(): { server: Kept; session: Session } {
  const server = new Kept();
  return { server, session: new Session(server, 1, "page", () => undefined) };
}

describe("a session", () => {
  it("makes each gesture on the last revision that it knows", async () => {
    const { server, session } = begun();
    await session.edit([{}]);
    await session.edit([{}]);
    expect(server.asked).toEqual(["edit on 1", "edit on 2"]);
    expect(session.head).toBe(3);
    expect(session.standing).toEqual({ kind: "saved" });
  });

  it("makes a table as one gesture, which is taken back as one", async () => {
    const { server, session } = begun();
    await session.table({ kind: "runs", system: "main", text: "to\tlength\nU1\t3", remove: false });
    await session.undo();
    expect(server.asked).toEqual(["runs on 1", "undo 2"]);
  });

  it("takes back one gesture at a time and makes it again", async () => {
    const { server, session } = begun();
    await session.edit([{}]);
    await session.edit([{}]);
    await session.undo();
    await session.undo();
    await session.undo();
    expect(server.asked.slice(2)).toEqual(["undo 3", "undo 2"]);
    await session.redo();
    expect(server.asked.at(-1)).toBe("undo 5");
    expect([session.undoable, session.redoable]).toEqual([[6], [4]]);
  });

  it("takes back a restore like any gesture", async () => {
    const { server, session } = begun();
    await session.edit([{}]);
    await session.restore(1);
    await session.undo();
    expect(server.asked).toEqual(["edit on 1", "restore 1 on 2", "undo 3"]);
  });

  it("forgets what was taken back when something new is made", async () => {
    const { session } = begun();
    await session.edit([{}]);
    await session.undo();
    await session.edit([{}]);
    expect(session.redoable).toEqual([]);
  });

  it("keeps what could not be sent, in order, and sends it once", async () => {
    const { server, session } = begun();
    server.reached = false;
    await session.edit([{}]);
    await session.edit([{}]);
    expect(session.standing).toEqual({ kind: "unreached", waiting: 2 });
    await session.retry();
    server.reached = true;
    await session.retry();
    expect(server.asked).toEqual(["edit on 1", "edit on 2"]);
    expect(session.head).toBe(3);
    await session.retry();
    expect(server.head).toBe(3);
  });

  it("says what was refused, changes nothing, and goes on", async () => {
    const { server, session } = begun();
    server.refuses = { kind: "refused", problem: { status: 422, detail: "x", faults: [{ message: "no", expected: "12 m", value: "" }] } };
    await session.edit([{}]);
    expect(session.standing.kind).toBe("refused");
    expect([session.head, session.undoable]).toEqual([1, []]);
    session.forget();
    expect(session.standing).toEqual({ kind: "saved" });
    server.refuses = null;
    await session.edit([{}]);
    expect(session.head).toBe(2);
  });
});

describe("a refusal in words", () => {
  it("tells both versions of a conflict", () => {
    const conflicts = [{ element: "main/run:J2", field: "length", base: "6 m", mine: "8 m", theirs: null }];
    expect(refusal({ status: 409, detail: "", conflicts })).toBe(
      "length of main/run:J2 was changed meanwhile: it was 6 m, you wanted 8 m, it is not there now",
    );
  });
  it("tells what would be right", () => {
    expect(refusal({ status: 422, detail: "d", faults: [{ message: "no", expected: "12 m", value: "" }] })).toBe("no; expected 12 m");
    expect(refusal({ status: 404, detail: "there is no such run" })).toBe("there is no such run");
  });
  it("tells everything that is wrong with a table, with its rows", () => {
    const faults = [
      { message: "no", expected: "12 m", value: "", file: "table", line: 3, column: 2 },
      { message: "nor that", expected: "", value: "", file: "clinic", line: 7 },
      { message: "nor this", expected: "", value: "", line: 0 },
    ];
    expect(refusals({ status: 422, detail: "d", faults })).toEqual(["row 3: no; expected 12 m", "line 7: nor that", "nor this"]);
    expect(refusals({ status: 404, detail: "gone" })).toEqual(["gone"]);
  });
});
