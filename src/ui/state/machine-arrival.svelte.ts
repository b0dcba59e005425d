import type { HarnessDocument } from "../../harness-model/index.ts";
import { type Machine, writeHarnessJson } from "../../application/index.ts";
import type { StoredMachine } from "../store/device-database.ts";
import { noteMachineUse, storedMachines, storeMachine } from "../store/machine-store.ts";
import { machineClient } from "../worker/machine-client.ts";
import { askMachine } from "./ask-machine.ts";
import { askToKeep } from "../store/open-job-store.ts";
import { chooseMachine } from "./choose-machine.ts";
import { app, type AppState } from "./app.svelte.ts";
import {
  demoMachine,
  keptMachine,
  SERVED_FILE,
  servedMachine,
  type MachineAtHand,
  type TextOpener,
} from "./open-machine.ts";
import { readPageLink } from "./page-link.ts";
import { askServer, BROKEN_MACHINE, type ServerFault } from "./served-reply.ts";

/** The machine that the address is for is not open; why, and what can be opened instead. */
export interface AbsentMachine {
  /** The mark in the address; undefined where it names no machine. */
  readonly mark: string | undefined;
  /** What this device knows the machine by. */
  readonly name: string | undefined;
  readonly fault: ServerFault | undefined;
  /** Why nothing is kept on this device, if so. */
  readonly refusal: string | undefined;
  readonly atHand: readonly MachineAtHand[];
}

/** What is said about a machine that was opened without being named, and what can be opened instead. */
export interface MachineNotice {
  readonly words: string;
  readonly atHand: readonly MachineAtHand[];
}

/** A machine that is kept on this device. */
export interface KeptMachine {
  readonly machine: MachineAtHand;
  /** Characters of its document. */
  readonly size: number;
  /** When it was opened last, ISO 8601; empty where that is not known. */
  readonly usedAt: string;
}

const OPENER: TextOpener = {
  openText: (text) => machineClient.openText(text),
  markOf: (text) => machineClient.ask("mark-of-text", text),
};

/** How a machine comes on the page: the one that the address names, and never another in its place. */
export class MachineArrival {
  absent = $state.raw<AbsentMachine>();
  notice = $state.raw<MachineNotice>();
  /** Why the machine that was accepted last is not kept on this device; undefined while all is well. */
  refusal = $state<string>();

  readonly #desk: AppState;
  /** Mark of the open machine as it is kept on this device; undefined where it is not. */
  #keptMark: string | undefined;
  /** Counts up with each machine that is opened or waited for: what was waited for before comes too late. */
  #turn = 0;

  constructor(ofPage: AppState) {
    this.#desk = ofPage;
  }

  /** Follows the address after a person went back or forward. */
  follow(): void {
    const { machine } = readPageLink(window.location.search);
    if (this.#desk.machine && (machine ?? this.#desk.mark) === this.#desk.mark) this.#desk.readAddress();
    else void this.arrive();
  }

  /** Opens the machine that the address names, or says that it is not here. */
  async arrive(): Promise<void> {
    const turn = this.#begin();
    this.#desk.close();
    const [reply, stored, demo] = await Promise.all([
      askServer(),
      storedMachines(),
      import("../../../demo-harness/firnlark-45.ohm.json?raw"),
    ]);
    if (turn !== this.#turn) return;
    const served = reply.kind === "text" ? await servedMachine(reply.text, OPENER) : undefined;
    const fault = reply.kind === "fault" ? reply : served?.ok === false ? BROKEN_MACHINE : undefined;
    const known = stored.ok ? stored.value : [];
    const { machine: mark } = readPageLink(window.location.search);
    const others = [
      served?.ok === true ? served.value : undefined,
      ...known.map((each) => keptMachine(each, OPENER)),
    ].filter((each) => each !== undefined);
    const isNamed = others.some((each) => each.mark === mark);
    const atHand = isNamed ? others : [...others, await demoMachine(demo.default, OPENER)];
    if (turn !== this.#turn) return;

    const isBare = window.location.search === "";
    const choice = chooseMachine({ wanted: mark, atHand, serverFailed: fault !== undefined });
    const isOpen = choice.kind === "open" && (await this.#put(choice.machine, true));
    if (isOpen === undefined) return;
    if (isOpen) {
      if (mark === undefined) this.notice = noticeOf(choice.machine, atHand, isBare);
      const { name, fileName } = choice.machine;
      if (choice.machine.from === "served") void storeMachine({ mark: choice.machine.mark, name, fileName });
      return;
    }
    if (served?.ok === false) this.#desk.refuse(SERVED_FILE, served.error);
    const name = known.find((each) => each.mark === mark)?.name;
    this.absent = { mark, name, fault, refusal: stored.ok ? undefined : stored.error, atHand: oneEach(atHand) };
  }

  /** The machines that are kept on this device, the one that was opened last first. */
  async kept(): Promise<readonly KeptMachine[]> {
    const stored = await storedMachines();
    return (stored.ok ? stored.value : []).flatMap((row) => {
      const machine = keptMachine(row, OPENER);
      return machine ? [{ machine, size: row.text?.length ?? 0, usedAt: row.usedAt ?? "" }] : [];
    });
  }

  /** Opens a machine that a person chose. The question in the address is asked only of other data of the same machine. */
  choose(machine: MachineAtHand): void {
    void this.#put(machine, machine.name === this.absent?.name);
  }

  /** Opens a machine that a person imported and accepted, and keeps it on this device. */
  accept(fileName: string, machine: Machine): void {
    const { document } = machine;
    const turn = this.#begin();
    askMachine("mark", undefined, { document, doing: "opening a machine" }, (mark) => {
      if (turn !== this.#turn) return;
      const wanted = readPageLink(window.location.search).machine ?? mark;
      this.#desk.openMachine(fileName, { machine, mark }, wanted === mark);
      void this.#keep({ mark, name: document.about.machine, fileName, text: writeHarnessJson(document) });
    });
  }

  /** Puts a changed document in the place of the open one and keeps it on this device. */
  change(document: HarnessDocument): void {
    this.#desk.changeDocument(document);
    const { fileName } = this.#desk;
    askMachine("mark", undefined, { document, doing: "keeping a changed machine" }, (mark) => {
      // A newer change brings its own mark.
      if (this.#desk.machine?.document !== document) return;
      this.#desk.changeMark(mark);
      void this.#keep({ mark, name: document.about.machine, fileName, text: writeHarnessJson(document) });
    });
  }

  async #keep(machine: StoredMachine): Promise<void> {
    const replaced = this.#keptMark;
    // Set at once: the next change may come before this one is stored.
    this.#keptMark = machine.mark;
    const stored = await storeMachine(machine, replaced);
    if (!stored.ok && this.#keptMark === machine.mark) this.#keptMark = replaced;
    if (stored.ok) void askToKeep();
    else if (machine.mark === this.#desk.mark) this.refusal = stored.error;
  }

  /** Whether it could be opened; undefined where another machine was wanted meanwhile. */
  async #put({ from, fileName, open }: MachineAtHand, asksAddress: boolean): Promise<boolean | undefined> {
    const turn = this.#turn;
    const opened = await open();
    if (turn !== this.#turn) return undefined;
    if (!opened.ok) this.#desk.refuse(fileName, opened.error);
    else {
      this.#begin();
      this.#desk.openMachine(fileName, opened.value, asksAddress);
      if (from === "kept") {
        this.#keptMark = opened.value.mark;
        void noteMachineUse(opened.value.mark);
      }
    }
    return opened.ok;
  }

  #begin(): number {
    this.absent = undefined;
    this.notice = undefined;
    this.refusal = undefined;
    this.#keptMark = undefined;
    return ++this.#turn;
  }
}

/** What is said of a machine that was not named: which it is where the address holds more, and what else is kept or came with the program. */
function noticeOf(opened: MachineAtHand, atHand: readonly MachineAtHand[], isBare: boolean): MachineNotice | undefined {
  const others = oneEach(atHand).filter(({ mark }) => mark !== opened.mark);
  const words = [
    isBare ? "" : `This address names no machine. Shown is ${opened.name}.`,
    opened.from === "kept" ? `${opened.name} was opened last on this device.` : "",
    others.some(({ from }) => from === "kept") ? "Other machines are kept on this device." : "",
  ].filter((each) => each !== "");
  return words.length === 0 ? undefined : { words: words.join(" "), atHand: others };
}

/** The first of each machine. */
function oneEach(atHand: readonly MachineAtHand[]): readonly MachineAtHand[] {
  return atHand.filter(({ mark }, at) => atHand.findIndex((each) => each.mark === mark) === at);
}

/** The one arrival of the page. */
export const machineArrival = new MachineArrival(app);
