// What is worked on: a project, one of its designs, the sheet that is looked at. The page shows it and asks it.

import type { BookLine, DocumentLine, Project, SystemLine, View } from "../api/client";
import { Refused, addDesign, lookAhead, addProject, hear, listBooks, listProjects, listSubjects, listSystems, serverOf, showDesign, showTrees, showProject, showScene } from "../api/client";
import { sceneAhead, touchedRuns, type Preview } from "../core/ahead";
import type { Edit, Units } from "../core/edits";
import { extended, leadOf, remaining, toggled, type Picked } from "../core/picking";
import type { TableKind } from "../core/place";
import { patched, received, runPlaces, settled, type Scene, type SceneChanges } from "../core/scene";
import { Session, refusal, refusals, type Answer, type Standing } from "../core/session";
import { ofMargin } from "../core/subjects";
import { runsOf, walked, type Arrow, type Run, type Trees } from "../core/walking";

/** How long to wait before what could not be sent is sent again [ms]. */
const AGAIN_MS = 1500;
/** What is not painted at once is asked for when nothing was changed for so long [ms]. */
const REST_MS = 300;
/** What can be asked for is listed anew when nothing was changed for so long, where nothing came or went: it takes the server long [ms]. */
const LONG_REST_MS = 1500;

/** What an error of a question says. */
export function saidOf(error: unknown): string {
  return error instanceof Refused ? refusal(error.problem) : "the program does not answer";
}

/** The sheet as it would be after edits that are only looked at. */
export interface Ahead {
  scene: Scene | null;
  systems: SystemLine[];
  runs: Picked;
}

export class Work {
  project = $state.raw<Project | null>(null);
  books = $state.raw<BookLine[]>([]);
  design = $state<number | null>(null);
  systems = $state.raw<SystemLine[]>([]);
  system = $state("");
  scene = $state.raw<Scene | null>(null);
  /** What is looked at before it is made; none where the sheet stands as the design does. */
  ahead = $state.raw<Ahead | null>(null);
  trees = $state.raw<Trees | null>(null);
  subjects = $state.raw<string[]>([]);
  picked = $state.raw<Picked>([]);
  /** The subject whose working is looked at; the first one of what is selected where it is of something else. */
  asked = $state<string | null>(null);
  axis = $state<"actual" | "equivalent">("actual");
  units = $state<Units | "">("");
  physics = $state(false);
  /** Whether every margin stands above the lanes, or the least ones alone. */
  margins = $state(false);
  /** Width of the sheet that is asked for [px]. */
  width = 1600;
  standing = $state.raw<Standing>({ kind: "saved" });
  head = $state(0);
  heard = $state(0);
  /** Grows whenever anything that is shown may have changed: a revision, or a book. */
  fresh = $state(0);
  trouble = $state("");
  /** Whether what there is was asked for and told. */
  started = $state(false);
  canUndo = $state(false);
  canRedo = $state(false);
  private session: Session | null = null;
  /** The system whose sheet was asked for with the last change. */
  private sentFor = "";
  /** How often it was looked ahead, or back. */
  private looks = 0;
  /** The edits that are looked at, to be looked at again where another view is chosen. */
  private lookedAt: readonly Edit[] | null = null;
  private later: ReturnType<typeof setTimeout>[] = [];

  readonly runs = $derived<Run[]>(this.trees === null ? [] : runsOf(this.trees, this.system));
  readonly selected = $derived(leadOf(this.picked));
  readonly at = $derived(this.runs.find((run) => run.id === this.selected));
  readonly book = $derived(this.systems.find((one) => one.id === this.system)?.book ?? "");
  readonly shown = $derived<Units>(this.scene?.units ?? "si");
  readonly said = $derived(this.standing.kind === "refused" ? refusal(this.standing.problem) : "");
  readonly saidAll = $derived(this.standing.kind === "refused" ? refusals(this.standing.problem) : []);
  /** What this page sends is heard as well, and may be heard before it is answered. */
  readonly elsewhere = $derived(this.heard > this.head && this.standing.kind !== "sending");

  view(): View {
    return { system: this.system, axis: this.axis, units: this.units, physics: this.physics, width_px: this.width, margin_rows: this.margins ? 0 : 1, tree: true, since: this.scene?.drawn ?? "" };
  }

  /** Open the first project, with the design and the system that are wanted where they are there. */
  async start(design: number | null, system: string): Promise<void> {
    await this.trying(async () => {
      const first = (await listProjects())[0];
      if (first !== undefined) await this.enter(first.id);
      const designs = this.project?.designs ?? [];
      const wanted = designs.find((one) => one.id === design) ?? designs[0];
      if (wanted !== undefined) await this.open(wanted.id, system);
      this.started = true;
    });
  }

  /** Begin where nothing stands yet: a first design, in a first project where there is none. */
  async begin(name: string): Promise<boolean> {
    return this.trying(async () => {
      const made = this.project === null ? await addProject(name) : null;
      if (made !== null) await this.enter(made.id);
      await this.add(name);
    });
  }

  /** Look at a project, and hear of what others change in it. */
  private async enter(project: number): Promise<void> {
    await this.lookAround(project);
    hear(project, (kind, id, revision) => {
      if (kind === "design" && id === this.design) this.heard = Math.max(this.heard, revision);
      if (kind === "book") void this.again();
    });
  }

  /** Ask anew what the project holds. */
  async lookAround(project = this.project?.id): Promise<void> {
    if (project === undefined) return;
    [this.project, this.books] = await Promise.all([showProject(project), listBooks(project)]);
  }

  async open(number: number, system = this.system): Promise<void> {
    await this.trying(async () => {
      const found = await showDesign(number);
      [this.design, this.head, this.heard] = [number, found.head, found.head];
      this.session = new Session(serverOf(number, () => this.sent()), this.head, crypto.randomUUID(), (answer) => this.changed(answer));
      this.standing = this.session.standing;
      [this.canUndo, this.canRedo, this.picked, this.scene] = [false, false, [], null];
      this.systems = await listSystems(number, this.units);
      await this.look(this.systems.some((one) => one.id === system) ? system : (this.systems[0]?.id ?? ""));
    });
  }

  /** Show the sheet of a system; none where the design has none yet. */
  async look(name: string): Promise<void> {
    const design = this.design;
    if (design === null) return;
    if (name !== this.system) [this.picked, this.system] = [[], name];
    if (name === "") {
      [this.scene, this.trees, this.subjects, this.trouble] = [null, null, [], ""];
      return;
    }
    await this.trying(async () => {
      // Together: what is painted can be walked over at once.
      const [drawn, trees] = await Promise.all([showScene(design, this.view()), showTrees(design)]);
      if (name !== this.system) return;
      [this.scene, this.trees] = [settled(received(drawn), this.scene), trees];
      if (this.ahead !== null && this.lookedAt !== null) void this.lookAhead(this.lookedAt);
      this.picked = remaining(this.runs, this.picked);
      this.subjects = (await listSubjects(design)).subjects;
    });
  }

  /** Look again, with everything around the sheet: a view was chosen, or a book was corrected. */
  async again(): Promise<void> {
    await this.look(this.system);
    if (this.design !== null) await Promise.all([this.refresh(this.design), this.listAgain(this.design)]);
  }

  /** Show what edits would come to; they are not made. */
  async lookAhead(edits: readonly Edit[]): Promise<void> {
    const [design, held] = [this.design, this.scene];
    if (design === null) return;
    await this.trying(async () => {
      const look = (this.looks += 1);
      this.lookedAt = edits;
      const found = await lookAhead(design, this.head, edits, this.view());
      // Something else may be looked at meanwhile, or nothing any more.
      if (held !== this.scene || look !== this.looks) return;
      this.ahead = this.aheadOf(found, held);
    });
  }

  /** What edits would come to; none where they cannot be made, or another sheet is shown meanwhile. */
  async foreseen(edits: readonly Edit[]): Promise<Ahead | null> {
    const [design, held] = [this.design, this.scene];
    if (design === null || edits.length === 0) return null;
    try {
      const found = await lookAhead(design, this.head, edits, this.view());
      return held === this.scene ? this.aheadOf(found, held) : null;
    } catch {
      return null;
    }
  }

  /** Show what edits would come to. */
  lookAt(found: Ahead): void {
    this.lookBack();
    this.ahead = found;
  }

  /** Show the design as it stands. */
  lookBack(): void {
    this.looks += 1;
    [this.ahead, this.lookedAt] = [null, null];
  }

  pick(run: string, more = false): void {
    this.picked = more ? toggled(this.picked, run) : [run];
  }

  /** Show how a margin of the sheet comes about. */
  why(margin: string): void {
    // Where the subjects are not there yet it is shown with them.
    [this.picked, this.asked] = [[], ofMargin(this.subjects, this.system, margin) ?? `${this.system}/${margin}`];
  }

  walk(arrow: Arrow, more: boolean): void {
    if (this.scene === null) return;
    const heights = new Map([...runPlaces(this.scene)].map(([run, place]) => [run, place.y1_px]));
    const to = walked(this.runs, heights, this.selected, arrow);
    if (to !== null) this.picked = more ? extended(this.picked, to) : [to];
  }

  /** Make edits as one gesture; gives whether they were made. */
  async edit(edits: Edit[]): Promise<boolean> {
    await this.session?.edit(edits);
    return this.made();
  }

  /** Make what a table says; gives whether it was made. */
  async table(kind: TableKind, text: string, remove = false): Promise<boolean> {
    const system = kind === "levels" || kind === "rooms" ? "" : this.system;
    await this.session?.table({ kind, system, text, remove });
    return this.made();
  }

  /** Put a whole text in place of the design; gives whether it was put in. */
  async text(text: string): Promise<boolean> {
    await this.session?.text(text);
    return this.made();
  }

  async undo(): Promise<void> {
    await this.session?.undo();
  }

  async redo(): Promise<void> {
    await this.session?.redo();
  }

  async restore(revision: number): Promise<void> {
    await this.session?.restore(revision);
  }

  /** Leave a refusal behind: something else is begun. */
  forget(): void {
    this.session?.forget();
  }

  /** Put in a design, empty or the text of a file, and open it; gives whether it was put in. */
  async add(name: string, text = ""): Promise<boolean> {
    const project = this.project?.id;
    if (project === undefined) return false;
    return this.trying(async () => {
      const made: DocumentLine | null = await addDesign(project, name, text);
      await this.lookAround();
      if (made !== null) await this.open(made.id);
    });
  }

  /** Do what may be refused, and say what it was; gives whether it was done. */
  async trying(work: () => Promise<void>): Promise<boolean> {
    this.trouble = "";
    try {
      await work();
      return true;
    } catch (error) {
      this.trouble = saidOf(error);
      return false;
    }
  }

  private aheadOf(found: Preview<SystemLine>, held: Scene | null): Ahead {
    return { scene: sceneAhead(found, held), systems: found.systems, runs: touchedRuns(found.elements, this.system) };
  }

  private sent(): View {
    this.sentFor = this.system;
    return this.view();
  }

  private made(): boolean {
    return this.session?.standing.kind === "saved";
  }

  private changed(answer: Answer | null): void {
    if (this.session === null || this.design === null) return;
    [this.standing, this.head] = [this.session.standing, this.session.head];
    [this.canUndo, this.canRedo] = [this.session.undoable.length > 0, this.session.redoable.length > 0];
    if (this.standing.kind === "unreached") setTimeout(() => void this.session?.retry(), AGAIN_MS);
    if (answer === null) return;
    const [number, before] = [this.design, this.named()];
    this.ahead = null;
    this.trees = answer.tree as Trees;
    this.draw(answer);
    this.picked = remaining(this.runs, this.picked);
    for (const timer of this.later) clearTimeout(timer);
    this.later = [
      setTimeout(() => void this.trying(() => this.refresh(number)), REST_MS),
      setTimeout(() => void this.trying(() => this.listAgain(number)), this.named() === before ? LONG_REST_MS : REST_MS),
    ];
  }

  /** What the runs are called. */
  private named(): string {
    return this.runs.map((run) => run.id).join("\n");
  }

  /** Show the sheet that an answer brings, whole or as what differs from the one that is shown. */
  private draw(answer: Answer): void {
    const [whole, changes] = [answer.scene as Scene | null, answer.scene_changes as SceneChanges | null];
    if (whole !== null) this.scene = settled(received(whole), this.scene);
    else if (changes === null) this.scene = null;
    else if (this.scene?.drawn === changes.since) this.scene = patched(this.scene, changes);
    // Another sheet was turned to meanwhile.
    if (this.sentFor !== this.system || (changes !== null && this.scene?.drawn !== changes.drawn)) void this.look(this.system);
  }

  private async refresh(number: number): Promise<void> {
    this.systems = await listSystems(number, this.units);
    this.fresh += 1;
  }

  private async listAgain(number: number): Promise<void> {
    this.subjects = (await listSubjects(number)).subjects;
  }
}
