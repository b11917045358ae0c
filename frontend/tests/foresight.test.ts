import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { ASK_MS, Foresight, SHOW_MS } from "../src/core/foresight";

/** Answers take so long [ms]. */
const ANSWER_MS = 30;

let asked: string[] = [];
let shown: (string | null)[] = [];

function foresight(): Foresight<string> {
  const ask = (text: string): Promise<string | null> => {
    asked.push(text);
    return new Promise((done) => setTimeout(() => done(text === "wrong" ? null : `sheet of ${text}`), ANSWER_MS));
  };
  return new Foresight(ask, (found) => shown.push(found));
}

beforeEach(() => {
  vi.useFakeTimers();
  [asked, shown] = [[], []];
});
afterEach(() => vi.useRealTimers());

describe("what typing would come to", () => {
  it("is shown when typing rests", async () => {
    foresight().typed("2");
    await vi.advanceTimersByTimeAsync(SHOW_MS - 1);
    expect([asked, shown]).toEqual([["2"], []]);
    await vi.advanceTimersByTimeAsync(1);
    expect(shown).toEqual(["sheet of 2"]);
  });

  it("is not asked for between keys that follow each other fast", async () => {
    const ahead = foresight();
    ahead.typed("2");
    await vi.advanceTimersByTimeAsync(ASK_MS - 1);
    ahead.typed("20");
    await vi.advanceTimersByTimeAsync(SHOW_MS);
    expect([asked, shown]).toEqual([["20"], ["sheet of 20"]]);
  });

  it("is not shown of a text that does not stand there any more", async () => {
    const ahead = foresight();
    ahead.typed("2");
    await vi.advanceTimersByTimeAsync(ASK_MS + 1);
    ahead.typed("20");
    await vi.advanceTimersByTimeAsync(2 * SHOW_MS);
    expect([asked, shown]).toEqual([["2", "20"], ["sheet of 20"]]);
  });

  it("is shown at once when it is made, where it is known", async () => {
    const ahead = foresight();
    ahead.typed("20");
    await vi.advanceTimersByTimeAsync(ASK_MS + ANSWER_MS);
    ahead.made("20");
    await vi.advanceTimersByTimeAsync(0);
    expect(shown).toEqual(["sheet of 20"]);
    await vi.advanceTimersByTimeAsync(2 * SHOW_MS);
    expect(shown).toEqual(["sheet of 20"]);
  });

  it("is shown as soon as it is known after it was made", async () => {
    const ahead = foresight();
    ahead.typed("20");
    await vi.advanceTimersByTimeAsync(ASK_MS);
    ahead.made("20");
    expect(shown).toEqual([]);
    await vi.advanceTimersByTimeAsync(ANSWER_MS);
    expect(shown).toEqual(["sheet of 20"]);
  });

  it("is not shown once it was left, nor where it was not asked for by then, nor of another text", async () => {
    const ahead = foresight();
    ahead.typed("20");
    await vi.advanceTimersByTimeAsync(ASK_MS);
    ahead.made("20");
    ahead.leave();
    ahead.typed("21");
    ahead.made("21");
    await vi.advanceTimersByTimeAsync(2 * SHOW_MS);
    ahead.typed("22");
    await vi.advanceTimersByTimeAsync(ASK_MS + ANSWER_MS);
    ahead.made("23");
    await vi.advanceTimersByTimeAsync(2 * SHOW_MS);
    expect([asked, shown]).toEqual([["20", "22"], [null]]);
  });

  it("is what there is where the text is wrong, and when the field is left", async () => {
    const ahead = foresight();
    ahead.typed("wrong");
    await vi.advanceTimersByTimeAsync(SHOW_MS);
    ahead.leave();
    expect(shown).toEqual([null, null]);
  });

  it("is asked for again when the same text means something else", async () => {
    const ahead = foresight();
    ahead.again();
    ahead.typed("20");
    await vi.advanceTimersByTimeAsync(SHOW_MS);
    ahead.again();
    await vi.advanceTimersByTimeAsync(SHOW_MS);
    expect([asked, shown]).toEqual([["20", "20"], ["sheet of 20", "sheet of 20"]]);
  });

  it("that comes late, after another was asked for, is left", async () => {
    const slow: ((found: string) => void)[] = [];
    const ahead = new Foresight<string>(() => new Promise((done) => slow.push(done)), (found) => shown.push(found));
    ahead.typed("2");
    await vi.advanceTimersByTimeAsync(2 * SHOW_MS);
    ahead.typed("20");
    await vi.advanceTimersByTimeAsync(ASK_MS);
    slow[0]?.("sheet of 2");
    await vi.advanceTimersByTimeAsync(2 * SHOW_MS);
    expect(shown).toEqual([]);
    slow[1]?.("sheet of 20");
    await vi.advanceTimersByTimeAsync(0);
    expect(shown).toEqual(["sheet of 20"]);
  });
});
