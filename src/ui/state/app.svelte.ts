import { SvelteSet } from "svelte/reactivity";
import type { Harness, HarnessDocument, Problem } from "../../harness-model/index.ts";
import type { Item, Mark } from "../../connectivity/index.ts";
import { chooseBuild, machineOf, type Answer, type Machine, type Question } from "../../application/index.ts";
import { CallDropped, machineClient } from "../worker/machine-client.ts";
import { faultNet } from "./fault-net.svelte.ts";
import type { OpenedMachine } from "./open-machine.ts";
import { readPageLink, writePageLink, type PageLink } from "./page-link.ts";
import { withFaults, type FaultSwitch } from "./readings.ts";
import { draftOf, EMPTY_DRAFT, questionOf, type QuestionDraft } from "./question-draft.ts";
import { keepRecent } from "./recents.ts";

/** A file that was refused or is odd: its name and what was found. */
export interface FileProblems {
  readonly fileName: string;
  readonly problems: readonly Problem[];
  readonly isRefused: boolean;
}

/** A field of the question that is being filled from the drawing. */
export type PickTarget = "from" | "to" | "items" | "fault";

/** All that the screen knows: one machine, one setting, one question, one selection. Everything on the page is read from here. */
export class AppState {
  machine = $state.raw<Machine>();
  fileName = $state("");
  fileProblems = $state.raw<FileProblems>();
  build = $state<string>();
  state = $state<string>();
  draft = $state.raw<QuestionDraft>(EMPTY_DRAFT);
  asked = $state.raw<Question>();
  selection = $state.raw<Item>();
  picking = $state<PickTarget>();
  /** Faults a person listed; readings hold for the machine that has those that are on. */
  faults = $state.raw<readonly FaultSwitch[]>([]);
  /** What the next fault to be listed is in, while it is being put together. */
  faultPlace = $state("");
  /** Cautions that were read and acknowledged since the page was opened. */
  readonly readCautions = new SvelteSet<string>();
  /** Which of answer and drawing are shown; on narrow screens one at a time. */
  view = $state<"split" | "answer" | "drawing" | "connectors">("split");
  /** Paths are shown with voltages and voltage drops. */
  showsReadings = $state(false);
  /** Counts up with every new answer a person asked for, so that views can go there. */
  askCount = $state(0);
  /** Counts up with every machine that is opened. */
  openCount = $state(0);

  /** The harness of the chosen build; none before a build is chosen. */
  readonly harness = $derived<Harness | undefined>(
    this.build === undefined ? undefined : this.machine?.harness(this.build),
  );
  /** What is drawn: the chosen build, or while none is chosen the first one, faintly. */
  readonly drawnHarness = $derived<Harness | undefined>(
    this.harness ?? this.machine?.harness(this.machine.document.builds[0]?.id ?? ""),
  );
  /** The mark of the open machine, by which addresses name it. */
  mark = $state<string>();
  readonly question = $derived(questionOf(this.draft));
  /** The answer to the question that is asked; undefined while it is being calculated. */
  answer = $state.raw<Answer>();
  isAnswering = $state(false);
  /** What the answer is about. */
  #answered: { readonly machine: Machine; readonly build: string } | undefined;
  /** Why there is no answer, where the program failed. */
  answerFault = $state("");
  /** The state answers hold for: the chosen one, else the first. */
  readonly stateId = $derived<string | undefined>(this.state ?? this.machine?.document.states[0]?.id);

  constructor() {
    $effect.root(() => {
      $effect(() => this.#answer());
    });
  }

  /**
   * Has the question that is asked answered again. An answer about the same build stays, marked as busy, until the new one is there, so that
   * nothing jumps under the hands; any other goes at once.
   */
  #answer(): (() => void) | undefined {
    const { machine, asked, build, state, faults } = this;
    const about = machine && asked && build !== undefined ? { machine, build } : undefined;
    if (!about || about.machine !== this.#answered?.machine || about.build !== this.#answered.build)
      this.answer = undefined;
    this.#answered = about;
    this.answerFault = "";
    this.isAnswering = about !== undefined;
    if (!machine || !asked || build === undefined) return undefined;
    const dropped = new AbortController();
    const setting = { build, ...(state !== undefined && { state }) };
    const request = { setting, question: withFaults(asked, faults) };
    const finish = (done: () => void): void => {
      if (dropped.signal.aborted) return;
      this.isAnswering = false;
      done();
    };
    machineClient.ask("ask", request, { document: machine.document, lane: "question" }).then(
      (answer) => finish(() => (this.answer = answer)),
      (fault: unknown) => {
        if (!(fault instanceof CallDropped))
          finish(() => {
            this.answer = undefined;
            this.answerFault = faultNet.tell(fault, "answering a question");
          });
      },
    );
    return () => dropped.abort();
  }

  /**
   * Opens a machine and says what is odd about its data.
   *
   * @param asksAddress Whether the question in the address is about this machine; if not, nothing is asked.
   */
  openMachine(fileName: string, { machine, mark }: OpenedMachine, asksAddress: boolean): void {
    const { warnings: problems } = machine;
    this.fileProblems = problems.length > 0 ? { fileName, problems, isRefused: false } : undefined;
    this.machine = machine;
    this.mark = mark;
    this.fileName = fileName;
    this.openCount++;
    if (asksAddress) this.readAddress();
    else this.#clear();
    this.#writeAddress(asksAddress ? "replace" : "push");
  }

  /** Puts a changed document in the place of the one that is open; build, question and selection stay. Its mark follows. */
  changeDocument(document: HarnessDocument): void {
    this.machine = machineOf(document);
  }

  /** Takes the mark of a changed document, which the address names from now on. */
  changeMark(mark: string): void {
    this.mark = mark;
    this.#writeAddress("replace");
  }

  /** Shows no machine any more; the address stays. */
  close(): void {
    this.fileProblems = undefined;
    this.machine = undefined;
    this.mark = undefined;
    this.fileName = "";
    this.#clear();
  }

  /** Says why a file was not opened; the machine that is open stays. */
  refuse(fileName: string, problems: readonly Problem[]): void {
    this.fileProblems = { fileName, problems, isRefused: true };
  }

  #clear(): void {
    this.draft = EMPTY_DRAFT;
    this.#show({ setting: {} });
  }

  /** Shows what the address of the page says; called at the start and when a person goes back or forward. */
  readAddress(): void {
    if (this.machine) this.#show(readPageLink(window.location.search));
  }

  #show({ setting, question, selection, faults = [], showsReadings = false }: PageLink): void {
    this.faults = faults;
    this.showsReadings = showsReadings;
    const builds = this.machine?.document.builds ?? [];
    // A link without a build is answered as on the command line; with no question a person chooses, unless there is nothing to choose.
    const chosen =
      this.machine && (question ?? builds.length === 1) ? chooseBuild(this.machine, setting.build) : undefined;
    const named = builds.find((build) => build.id === setting.build)?.id;
    this.build = chosen?.ok ? chosen.value.build.id : named;
    this.state = this.machine?.document.states.find((state) => state.id === setting.state)?.id;
    this.asked = question;
    this.draft = question ? draftOf(question, this.draft) : this.draft;
    this.selection = selection;
    this.picking = undefined;
    if (question) this.askCount++;
  }

  chooseBuild(build: string): void {
    this.build = build;
    this.#writeAddress("push");
  }

  chooseState(state: string): void {
    this.state = state;
    this.#writeAddress("push");
  }

  /** Changes the question being put together; nothing is asked yet. */
  edit(change: Partial<QuestionDraft>): void {
    this.draft = { ...this.draft, ...change };
  }

  /** Asks the question that is put together. */
  ask(): void {
    if (!this.question || this.build === undefined) return;
    this.asked = this.question;
    this.picking = undefined;
    this.askCount++;
    if (this.view !== "answer") this.view = "split";
    this.#writeAddress("push");
  }

  /** Puts together and asks in one go. */
  askFor(change: Partial<QuestionDraft>): void {
    this.edit(change);
    this.ask();
  }

  addThing(text: string, mark: Mark = "unknown"): void {
    const name = text.trim();
    if (name === "" || this.draft.items.some((item) => item.text === name)) return;
    this.edit({ kind: "common", items: [...this.draft.items, { text: name, mark }] });
    if (this.question) this.ask();
  }

  markThing(text: string, mark: Mark): void {
    this.edit({ items: this.draft.items.map((item) => (item.text === text ? { text, mark } : item)) });
    if (this.question) this.ask();
  }

  removeThing(text: string): void {
    this.edit({ items: this.draft.items.filter((item) => item.text !== text) });
    if (this.question) this.ask();
  }

  /** Puts an item that was meant in the place of what was typed, and asks again. */
  replaceName(typed: string, id: string): void {
    const swap = (text: string): string => (text.trim() === typed.trim() ? id : text);
    const { from, to, items } = this.draft;
    this.askFor({
      from: swap(from),
      to: swap(to),
      items: items.map(({ text, mark }) => ({ text: swap(text), mark })),
    });
  }

  /** Keeps an item among those asked about last. */
  remember(item: Item): void {
    if (this.mark !== undefined) keepRecent(this.mark, item);
  }

  select(selection: Item | undefined): void {
    this.selection = selection;
    this.#writeAddress("replace");
  }

  /** What a tap on the drawing or on a face does: fills the field that waits for it, and selects. */
  pick(item: Item): void {
    const target = this.picking;
    this.picking = undefined;
    if (target === "items") this.addThing(item.id);
    else if (target === "fault") this.faultPlace = item.id;
    else if (target) this.edit({ [target]: item.id });
    this.select(item);
  }

  /** Lists faults again, on or off. */
  changeFaults(faults: readonly FaultSwitch[]): void {
    this.faults = faults;
    this.#writeAddress("push");
  }

  showReadings(isShown: boolean): void {
    this.showsReadings = isShown;
    this.#writeAddress("push");
  }

  /** Notes that cautions were read: they are not shown again until another comes. */
  acknowledge(cautions: readonly string[]): void {
    for (const caution of cautions) this.readCautions.add(caution);
  }

  dismissProblems(): void {
    this.fileProblems = undefined;
  }

  /** What the address of the page holds when a question is shown. */
  link(question: Question | undefined): PageLink {
    return {
      ...(this.mark !== undefined && { machine: this.mark }),
      setting: {
        ...(this.build !== undefined && { build: this.build }),
        ...(this.state !== undefined && { state: this.state }),
      },
      ...(question && { question }),
      ...(this.selection && { selection: this.selection }),
      faults: this.faults,
      showsReadings: this.showsReadings,
    };
  }

  #writeAddress(how: "push" | "replace"): void {
    const link = writePageLink(this.link(this.asked));
    const { pathname, search, hash } = window.location;
    const address = pathname + link + hash;
    if (address === pathname + search + hash) return;
    if (how === "push") window.history.pushState(null, "", address);
    else window.history.replaceState(null, "", address);
  }
}

/** The one desk of the page. */
export const app = new AppState();
