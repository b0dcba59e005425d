import { defined } from "../../base/index.ts";
import type {
  ConfirmedMating,
  ImportProblem,
  MatingProposal,
  ReadProgress,
  ReadResult,
  TableOptions,
  WantedBuild,
} from "../../import-export/index.ts";
import {
  type AcceptedKind,
  type ImportPart,
  type ImportProposal,
  type MadeRepair,
  readTableRepairs,
  machineOf,
  type ReadMachine,
  type ReadNews,
  rememberMapping,
} from "../../application/index.ts";
import { CallDropped, MachineClient } from "../worker/machine-client.ts";
import {
  freshFile,
  named,
  optionsSeen,
  problemsOf,
  problemsOfResult,
  REPAIRS_END,
  repairsName,
  saidOf,
  tableFiles,
  tableOf,
  type DataFile,
} from "./data-file.ts";
import { storedMappings, storeMappings } from "./data-memory.ts";
import { stampNow } from "./job-clock.ts";
import { machineArrival, type MachineArrival } from "./machine-arrival.svelte.ts";
import { page } from "./page.svelte.ts";
import { faultNet } from "./fault-net.svelte.ts";

/** Work that runs, as it is shown. */
export interface ShownWork extends ReadProgress {
  readonly title: string;
}

/** What the Data page knows: files on their way in. The machine that is open is not touched before `accept`. */
export class ImportState {
  files = $state.raw<readonly DataFile[]>([]);
  work = $state.raw<ShownWork>();
  proposals = $state.raw<readonly MatingProposal[]>();
  confirmed = $state.raw<readonly MatingProposal[]>([]);
  joined = $state.raw<ReadResult>();
  /** Sorts of questions that a person has accepted. */
  accepted = $state.raw<readonly AcceptedKind[]>([]);
  /** What is asked about the files, as they were read last. */
  questions = $state.raw<readonly ImportProposal[]>([]);
  failure = $state<string>();
  /** What a person calls the machine, where no file says it. */
  name = $state("");

  readonly #arrival: MachineArrival;
  /** Files are read in a worker of their own, so that stopping one loses nothing of what is known of the open machine. */
  readonly #reader = new MachineClient();
  /** Stops what runs; undefined while nothing does. */
  #running: AbortController | undefined;
  #doing: DataFile | undefined;
  readonly #summaries = new WeakMap<ReadResult, readonly string[]>();
  #count = 0;

  /** What came of all files together; undefined before everything is read. */
  readonly result = $derived.by<ReadResult | undefined>(() => {
    const only = this.files.length === 1 ? this.files[0]?.result : undefined;
    return this.#isJoined && only?.ok !== false ? this.joined : only;
  });
  /** What can be asked yet of what was read, in sentences. */
  readonly summary = $derived<readonly string[]>((this.result && this.#summaries.get(this.result)) ?? []);
  readonly canAccept = $derived(this.work === undefined && this.result?.ok === true);
  readonly problems = $derived<readonly ImportProblem[]>(
    this.files.length > 1 && this.joined ? problemsOfResult(this.joined) : this.files.flatMap(problemsOf),
  );

  constructor(ofPage: MachineArrival) {
    this.#arrival = ofPage;
  }

  /** Takes files that were chosen or dropped; they come in beside those that are there. */
  take(files: readonly File[]): void {
    if (files.length === 0) return;
    page.open("data");
    if (this.files.length === 0) this.#clear();
    const tables = files.filter(({ name }) => !name.endsWith(REPAIRS_END));
    this.files = [...this.files, ...tables.map((file) => freshFile(++this.#count, file))];
    this.#again();
    for (const file of files) if (!tables.includes(file)) void this.#takeRepairs(file);
  }

  /** Takes a file of repairs for the table whose name it has. */
  async #takeRepairs(file: File): Promise<void> {
    const read = readTableRepairs(await file.text());
    const owner = this.files.find((each) => repairsName(each) === file.name);
    if (read.ok && owner) {
      const made = read.value.map((repair) => ({ repair, heading: "", was: "", isUndone: false }));
      this.repair(owner.id, [...owner.repairs, ...made]);
    } else this.failure = `${file.name}: ${read.ok ? "Its table is not here. Choose both" : read.error}.`;
  }

  remove(id: number): void {
    if (this.#doing?.id === id) this.#halt();
    this.files = this.files.filter((each) => each.id !== id);
    this.#again();
  }

  /** Accepts the questions of one sort, or takes that back; the tables are read again. */
  answer(kind: AcceptedKind, isAccepted: boolean): void {
    const others = this.accepted.filter((each) => each !== kind);
    this.accepted = isAccepted ? [...others, kind] : others;
    this.files = this.files.map((each) => (tableOf(each) ? { ...each, result: undefined } : each));
    this.joined = undefined;
    this.#halt();
    this.#next();
  }

  /** Says what was corrected in a table; it is read again. */
  repair(id: number, repairs: readonly MadeRepair[]): void {
    this.#change(id, { repairs });
    this.say(id, {});
  }

  /** Says something about a table; it is read again. */
  say(id: number, change: TableOptions): void {
    const before = this.files.find((each) => each.id === id);
    if (!before) return;
    this.#change(id, { table: { ...before.table, ...change }, result: undefined, needed: undefined, isStopped: false });
    if (this.#doing?.id === id) this.#halt();
    this.#again();
  }

  /** Chooses the sheet of a workbook; an empty name means all of them. */
  chooseSheet(id: number, sheet: string): void {
    const { decimal, colours, known } = this.files.find((each) => each.id === id)?.table ?? {};
    this.#change(id, { table: defined({ decimal, colours, known }) });
    this.say(id, sheet === "" ? {} : { sheet });
  }

  /** Wants builds made of options of a file; it is read again. */
  want(id: number, wanted: readonly WantedBuild[]): void {
    this.#change(id, { wanted, build: undefined });
    this.say(id, {});
  }

  keepBuild(id: number, build: string | undefined): void {
    this.#change(id, { build });
    this.joined = undefined;
    this.#halt();
    this.#next();
  }

  confirm(proposal: MatingProposal, isMeant: boolean): void {
    const others = this.confirmed.filter((each) => each !== proposal);
    this.confirmed = isMeant ? [...others, proposal] : others;
    this.joined = undefined;
    this.#halt();
    this.#next();
  }

  /** Ends what runs. What was read so far stays; the open machine is as it was. */
  cancel(): void {
    const stopped = this.#doing;
    this.#halt();
    if (stopped) {
      for (const { id, result } of this.files) if (!result) this.#change(id, { isStopped: true });
    } else this.failure = "Stopped. Change a setting or remove a file to continue.";
  }

  readAgain(id: number): void {
    this.#change(id, { isStopped: false });
    this.#again();
  }

  /** Puts the machine that was read in the place of the one that is open. */
  accept(): void {
    if (!this.canAccept || !this.result?.ok) return;
    const { document } = this.result.value;
    let memory = storedMappings();
    // A table without headings is told by nothing.
    for (const { headings, mapping } of this.files.flatMap(({ table }) => table.known ?? []))
      if (headings.some((text) => text !== "")) memory = rememberMapping(memory, headings, mapping);
    storeMappings(memory);
    const fileName = this.files.map(({ file }) => file.name).join(", ");
    const machine = machineOf(
      named(document, this.name || (this.files[0]?.file.name ?? "").replace(/\.[a-z]+$/iu, "")),
    );
    this.#clear();
    page.open("harness");
    this.#arrival.accept(fileName, machine);
  }

  /** Lets the files go; the open machine stays. */
  discard(): void {
    this.#clear();
    page.open("harness");
  }

  #clear(): void {
    this.#halt();
    this.files = [];
    this.name = "";
    this.accepted = [];
    this.questions = [];
    this.#forgetJoin();
  }

  #forgetJoin(): void {
    this.proposals = undefined;
    this.confirmed = [];
    this.joined = undefined;
    this.failure = undefined;
  }

  #again(): void {
    this.#forgetJoin();
    if (!this.#doing) this.#halt();
    this.#next();
  }

  #halt(): void {
    this.#running?.abort();
    this.#running = undefined;
    this.#doing = undefined;
    this.work = undefined;
  }

  #change(id: number, change: Partial<DataFile>): void {
    this.files = this.files.map((each) => (each.id === id ? { ...each, ...change } : each));
  }

  /** What came of reading a file. Options are remembered, since a reading with other builds names only those it used. */
  #take(id: number, result: ReadResult): void {
    const before = this.files.find((each) => each.id === id)?.options ?? [];
    this.#change(id, { result, options: optionsSeen(before, result) });
  }

  /** Whether the machine is more than what was read of one file. */
  get #isJoined(): boolean {
    return this.files.length > 1 || this.accepted.includes("same-signal");
  }

  #heard({ result, summary, questions }: ReadMachine, isWhole: boolean): ReadResult {
    this.#summaries.set(result, summary);
    if (isWhole) this.questions = questions;
    return result;
  }

  #parts(): readonly ImportPart[] {
    return this.files.flatMap(({ result, build }) =>
      result?.ok === true ? [{ imported: result.value, ...(build !== undefined && { build }) }] : [],
    );
  }

  /** Starts what is to be done next, if nothing runs. */
  #next(): void {
    if (this.#running) return;
    const unread = this.files.find(({ result, needed, isStopped }) => !result && !needed && !isStopped);
    if (unread) {
      const { file, wanted } = unread;
      const [table, accepted] = [saidOf(unread), this.accepted];
      this.#doing = unread;
      this.#start(`Reading ${file.name}`, async (options) => {
        const bytes = new Uint8Array(await file.arrayBuffer());
        const request = { fileName: file.name, bytes, table, memory: storedMappings(), builds: wanted, accepted };
        const reply = await this.#reader.ask("import-read", request, options);
        return () => {
          if (reply.kind === "read") this.#take(unread.id, this.#heard(reply, this.files.length === 1));
          else this.#change(unread.id, { needed: reply.problems });
        };
      });
      return;
    }
    const parts = this.#parts();
    if (!this.#isJoined || parts.length < this.files.length) return;
    if (!this.proposals && parts.length > 1)
      this.#start("Looking for connectors that mate", async (options) => {
        const proposals = await this.#reader.ask("import-propose", parts, options);
        return () => (this.proposals = proposals);
      });
    else if (!this.joined) {
      const pairs: readonly ConfirmedMating[] = this.confirmed.map(({ first, second }) => ({ first, second }));
      this.#start("Making one machine of the files", async (options) => {
        const { accepted } = this;
        const on = stampNow().at.slice(0, 10);
        const tables = await tableFiles(this.files);
        const request = { parts, pairs, accepted, on, ...defined({ tables }) };
        const joined = await this.#reader.ask("import-join", request, options);
        return () => (this.joined = this.#heard(joined, true));
      });
    }
  }

  /** Starts a piece of work, which answers with what is to be done once it is over. */
  #start(title: string, work: (options: WorkOptions) => Promise<() => void>): void {
    this.failure = undefined;
    this.work = { title, share: 0, doing: "" };
    const running = new AbortController();
    this.#running = running;
    const id = this.#doing?.id ?? 0;
    const onNews = (news: ReadNews): void => {
      if (this.#running !== running) return;
      if (news.kind === "progress") this.work = { title, ...news.progress };
      else this.#change(id, { preview: news.preview });
    };
    work({ signal: running.signal, onNews }).then(
      (finish) => {
        if (this.#running !== running) return;
        this.#halt();
        finish();
        this.#next();
      },
      (fault: unknown) => {
        if (fault instanceof CallDropped || this.#running !== running) return;
        const { file } = this.#doing ?? {};
        this.cancel();
        this.failure = `${file?.name ?? "The files"}: ${faultNet.tell(fault, title)}`;
      },
    );
  }
}

interface WorkOptions {
  readonly signal: AbortSignal;
  readonly onNews: (news: ReadNews) => void;
}

/** The one Data page. */
export const importState = new ImportState(machineArrival);
