// What typing would come to: asked for when it rests a moment, shown when it rests longer, or at once when it is made.

/** A moment: between two keys of somebody who types fast nothing is asked for [ms]. */
export const ASK_MS = 40;
/** What is shown between two keys would only flicker [ms]. */
export const SHOW_MS = 250;

export class Foresight<Found> {
  private text: string | null = null;
  private asked = false;
  private timers: ReturnType<typeof setTimeout>[] = [];
  /** Grows with every text, so that an answer that comes late is known for one. */
  private turn = 0;
  private hurry: () => void = () => {};

  /** `ask` gives what a text would come to, none where it would come to nothing; `show` shows that, or what there is. */
  constructor(
    private readonly ask: (text: string) => Promise<Found | null>,
    private readonly show: (found: Found | null) => void,
  ) {}

  /** Another text stands in the field. */
  typed(text: string): void {
    this.stop();
    this.text = text;
    const turn = this.turn;
    const found = this.after(ASK_MS).then(() => this.look(text));
    const rested = new Promise<void>((done) => {
      this.hurry = done;
      void this.after(SHOW_MS).then(done);
    });
    void Promise.all([found, rested]).then(([sheet]) => {
      if (turn === this.turn) this.show(sheet);
    });
  }

  /** Something else is meant by the same text. */
  again(): void {
    if (this.text !== null) this.typed(this.text);
  }

  /** The text is made: what it comes to is shown as soon as it is known, until `leave`; by then all is known anyway. */
  made(text: string): void {
    if (this.text === text && this.asked) this.hurry();
    else this.stop();
  }

  /** Nothing is typed any more; what there is is shown. */
  leave(): void {
    this.stop();
    this.show(null);
  }

  private look(text: string): Promise<Found | null> {
    this.asked = true;
    return this.ask(text);
  }

  private stop(): void {
    for (const timer of this.timers) clearTimeout(timer);
    [this.timers, this.text, this.asked, this.turn] = [[], null, false, this.turn + 1];
  }

  private after(ms: number): Promise<void> {
    return new Promise((done) => this.timers.push(setTimeout(done, ms)));
  }
}
