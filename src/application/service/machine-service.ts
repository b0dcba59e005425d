import {
  readTableFiles,
  runReading,
  type ConfirmedMating,
  type ImportProblem,
  type MappingMemory,
  type MatingProposal,
  type ReadProgress,
  type ReadResult,
  type TableFile,
  type TableOptions,
  type WantedBuild,
} from "../../import-export/index.ts";
import { defined, ok, type Result } from "../../base/index.ts";
import type { HarnessDocument, Problem } from "../../harness-model/index.ts";
import { find, type Hit, type Item } from "../../connectivity/index.ts";
import type { JobRecord, Stamp } from "../../job-records/index.ts";
import type { Answer, ChooseAnswer } from "../answer.ts";
import { ask } from "../ask.ts";
import { askCompare } from "../compare/ask-compare.ts";
import { diagramMarks, type MarksWanted } from "../diagram-marks.ts";
import { leadReach, type LeadReach } from "../expect/lead-reach.ts";
import { readingsAlongPath, type PathReadings } from "../expect/readings-along-path.ts";
import { findGaps } from "../gaps/find-gaps.ts";
import type { GapsReport, ItemGaps } from "../gaps/gap.ts";
import { gapsReport } from "../gaps/gaps-report.ts";
import { summariseGaps } from "../gaps/summarise-gaps.ts";
import {
  acceptJoins,
  importProposals,
  sharedConnectors,
  tableKinds,
  type AcceptedKind,
  type ImportProposal,
} from "../import/accept-proposals.ts";
import { importFile } from "../import/import-file.ts";
import { joinImports, proposePairs, type ImportPart } from "../import/join-imports.ts";
import { previewImport, type ImportPreview } from "../import/preview-import.ts";
import type { JobRequest } from "../job/begin-job.ts";
import type { JobChecksAnswer, JobRefusal, JobReportAnswer } from "../job/job-answers.ts";
import { beginView, findChecks, stepView, viewJob, type JobMoved, type JobView } from "../job/job-service.ts";
import { blankSheet, type ChecksRequest } from "../job/job-views.ts";
import type { JobStep } from "../job/take-step.ts";
import { machineMark } from "../machine-mark.ts";
import { machineOf, openMachine, type Machine } from "../open-machine.ts";
import type { Conditions, ExpectMeter, OpenSetting, Question } from "../question.ts";
import { taskContent } from "../training/tasks-report.ts";
import { TrainingService, type Call, type TrainingCalls } from "./training-service.ts";

/** A file to be read. */
export interface ReadRequest {
  readonly fileName: string;
  readonly bytes: Uint8Array;
  readonly table: TableOptions;
  readonly memory: MappingMemory;
  /** Builds to make of options of the file; none means those that it names. */
  readonly builds: readonly WantedBuild[];
  /** Sorts of proposals that are confirmed. */
  readonly accepted: readonly AcceptedKind[];
}

/** Files that were read and become one machine. */
export interface JoinRequest {
  readonly parts: readonly ImportPart[];
  readonly pairs: readonly ConfirmedMating[];
  readonly accepted: readonly AcceptedKind[];
  /** The date, such as `2026-11-30`. */
  readonly on: string;
  /** The files, where all of them are tables. */
  readonly tables?: readonly TableFile[];
}

/** A machine that was read, or its problems; what can be asked of it yet, in sentences; and what a person is asked about it. */
export interface ReadMachine {
  readonly result: ReadResult;
  readonly summary: readonly string[];
  readonly questions: readonly ImportProposal[];
}

/** What came of reading a file: a machine or its problems; or a person has to say first what the columns of a table hold. */
export type ReadReply =
  ({ readonly kind: "read" } & ReadMachine) | { readonly kind: "needed"; readonly problems: readonly ImportProblem[] };

/** What is told on the way. */
export type ReadNews =
  | { readonly kind: "progress"; readonly progress: ReadProgress }
  | { readonly kind: "preview"; readonly preview: ImportPreview };

/** A machine whose text was opened, as data. */
export interface OpenedText {
  readonly document: HarnessDocument;
  /** What is odd about the document without keeping it from being used. */
  readonly warnings: readonly Problem[];
  /** The mark of the machine, by which addresses name it. */
  readonly mark: string;
}

/** Everything that is asked of a machine, by name. Jobs, questions and practice need {@link MachineService} to hold a machine first. */
export interface MachineCalls extends TrainingCalls {
  readonly open: Call<HarnessDocument, undefined>;
  /** Opens the text of a document, or says every problem of it; the machine that was held before stays then. */
  readonly "open-text": Call<string, Result<OpenedText, readonly Problem[]>>;
  /** The mark of the machine of a text, which is not opened for it; undefined where the text is no document. */
  readonly "mark-of-text": Call<string, string | undefined>;
  readonly mark: Call<undefined, string>;
  /** Items of a build that fit words, best first; none where there is no such build. */
  readonly find: Call<{ readonly build: string; readonly text: string; readonly limit: number }, readonly Hit[]>;
  readonly ask: Call<{ readonly setting: OpenSetting; readonly question: Question }, Answer>;
  /** Several questions at once, in order. */
  readonly "ask-all": Call<
    { readonly setting: OpenSetting; readonly questions: readonly Question[] },
    readonly Answer[]
  >;
  readonly "path-readings": Call<
    { readonly setting: OpenSetting; readonly path: readonly Item[]; readonly conditions: Conditions },
    PathReadings
  >;
  /** What a voltmeter shows at the points of a circuit diagram, and whether it may go there. */
  readonly "diagram-marks": Call<{ readonly setting: OpenSetting } & MarksWanted, ReturnType<typeof diagramMarks>>;
  /** Whether a lead may go on each of several points; undefined for what is no single point. */
  readonly "lead-reach": Call<
    {
      readonly setting: OpenSetting;
      readonly points: readonly string[];
      readonly meter: ExpectMeter;
      readonly conditions: Conditions;
    },
    readonly (LeadReach | undefined)[]
  >;
  /** What differs between the open machine and another document, in all builds. */
  readonly compare: Call<HarnessDocument, ReturnType<typeof askCompare>>;
  readonly gaps: Call<undefined, GapsReport>;
  /** What is not known of one item. */
  readonly "gaps-of": Call<string, ItemGaps | undefined>;
  /** The form of no job yet, for a clipboard. */
  readonly "blank-sheet": Call<string, JobReportAnswer["sheet"] | undefined>;
  readonly "job-begin": Call<
    { readonly request: JobRequest; readonly stamp: Stamp },
    Result<JobView, JobRefusal | ChooseAnswer>
  >;
  readonly "job-step": Call<
    { readonly record: JobRecord; readonly step: JobStep; readonly stamp: Stamp },
    Result<JobMoved, JobRefusal>
  >;
  readonly "job-view": Call<{ readonly record: JobRecord; readonly check?: string }, Result<JobView, JobRefusal>>;
  readonly "job-checks": Call<{ readonly record: JobRecord } & ChecksRequest, Result<JobChecksAnswer, JobRefusal>>;
  readonly "import-read": Call<ReadRequest, ReadReply>;
  readonly "import-propose": Call<readonly ImportPart[], readonly MatingProposal[]>;
  readonly "import-join": Call<JoinRequest, ReadMachine>;
}

/** What is asked in a call. */
export type RequestOf<Name extends keyof MachineCalls> = MachineCalls[Name]["request"];
/** What is answered to a call. */
export type ReplyOf<Name extends keyof MachineCalls> = MachineCalls[Name]["reply"];

type Handlers = {
  readonly [Name in keyof MachineCalls]: (request: RequestOf<Name>, tell: (news: ReadNews) => void) => ReplyOf<Name>;
};

/**
 * One machine and all that is asked of it. It holds the document and what is worked out of it; it knows nothing of who asks, so that a
 * worker, a test and any other program are served alike.
 */
export class MachineService {
  #machine: Machine | undefined;
  #practice: TrainingService | undefined;
  /** The text that was read last: one that is asked about first is mostly opened next. */
  #text: { readonly text: string; readonly opened: ReturnType<typeof openMachine> } | undefined;

  /**
   * Answers a call.
   *
   * @param name Which call.
   * @param request What is asked.
   * @param tell Told of progress.
   */
  answer<Name extends keyof MachineCalls>(
    name: Name,
    request: RequestOf<Name>,
    tell: (news: ReadNews) => void = () => undefined,
  ): ReplyOf<Name> {
    const handlers: Handlers = this.#handlers;
    return handlers[name](request, tell);
  }

  get #open(): Machine {
    if (!this.#machine) throw new RangeError("Cannot answer: no machine was opened");
    return this.#machine;
  }

  get #trainer(): TrainingService {
    return (this.#practice ??= new TrainingService(this.#open));
  }

  #hold(machine: Machine): undefined {
    this.#machine = machine;
    this.#practice = undefined;
  }

  #read(text: string): ReturnType<typeof openMachine> {
    if (this.#text?.text !== text) this.#text = { text, opened: openMachine(text) };
    return this.#text.opened;
  }

  readonly #handlers: Handlers = {
    open: (document) => this.#hold(machineOf(document)),
    "open-text": (text) => {
      const opened = this.#read(text);
      this.#text = undefined;
      if (!opened.ok) return opened;
      this.#hold(opened.value);
      const { document, warnings } = opened.value;
      return ok({ document, warnings, mark: machineMark(document) });
    },
    "mark-of-text": (text) => {
      const opened = this.#read(text);
      return opened.ok ? machineMark(opened.value.document) : undefined;
    },
    mark: () => machineMark(this.#open.document),
    find: ({ build, text, limit }) => {
      const harness = this.#open.harness(build);
      return harness ? find(harness, text, { limit }) : [];
    },
    ask: ({ setting, question }) => ask(this.#open, setting, question),
    "ask-all": ({ setting, questions }) => questions.map((question) => ask(this.#open, setting, question)),
    "path-readings": ({ setting, path, conditions }) => readingsAlongPath(this.#open, setting, { path, conditions }),
    "diagram-marks": ({ setting, ...wanted }) => diagramMarks(this.#open, setting, wanted),
    "lead-reach": ({ setting, points, ...lead }) =>
      points.map((point) => leadReach(this.#open, setting, { point, ...lead })),
    compare: (document) => askCompare({ machine: this.#open }, { machine: machineOf(document) }),
    gaps: () => gapsReport(this.#open.document),
    "gaps-of": (item) => findGaps(this.#open.document).find(({ about }) => about === item),
    "blank-sheet": (build) => {
      const harness = this.#open.harness(build);
      return harness && blankSheet(harness);
    },
    "job-begin": ({ request, stamp }) => beginView(this.#open, request, stamp),
    "job-step": ({ record, step, stamp }) => stepView(this.#open, record, step, stamp),
    "job-view": ({ record, check }) => viewJob(this.#open, record, check),
    "job-checks": ({ record, ...request }) => findChecks(this.#open, record, request),
    "import-read": readFile,
    "import-propose": (parts) => proposePairs(parts),
    "import-join": joinFiles,
    "practice-open": () => this.#trainer.check(),
    exercise: (wanted) => this.#trainer.openExercise(wanted),
    "exercise-step": (event) => this.#trainer.step(event),
    "exercise-causes": (item) => this.#trainer.causes(item),
    "exercise-plan": () => this.#trainer.plan(),
    "exercise-score": (wanted) => this.#trainer.score(wanted),
    drills: (code) => this.#trainer.drills(code),
    "drills-again": (cards) => this.#trainer.again(cards),
    "task-preview": (task) => taskContent(this.#open, task),
    "list-write": (list) => this.#trainer.writeList(list),
    "list-open": (text) => this.#trainer.openList(text),
    grade: (text) => this.#trainer.grade(text),
  };
}

function readFile(
  { fileName, bytes, table, memory, builds, accepted: kinds }: ReadRequest,
  tell: (news: ReadNews) => void,
): ReadReply {
  const accepted = new Set(kinds);
  const options = {
    ...{ fileName, table: { ...table, accept: tableKinds(accepted) } },
    ...(builds.length > 0 && { builds }),
  };
  const looked = runReading(previewImport(bytes, options, memory), progress(tell, 0, 0.3));
  if (!looked?.ok) return { kind: "read", ...summed({ ok: false, error: looked?.error ?? [] }, []) };
  const preview = looked.value;
  tell({ kind: "preview", preview });
  if (preview.kind === "table" && preview.mappingFrom === "needed")
    return { kind: "needed", problems: preview.preview.problems };
  const said = preview.kind === "table" ? { ...options, table: preview.said } : options;
  const result: ReadResult = runReading(importFile(bytes, said), progress(tell, 0.3, 1)) ?? { ok: false, error: [] };
  return { kind: "read", ...summed(result, result.ok ? importProposals(result.value, accepted) : []) };
}

/** Makes one machine of files; of tables in which a connector of one name is confirmed to be one by reading them together. */
function joinFiles(
  { parts, pairs, accepted: kinds, on, tables = [] }: JoinRequest,
  tell: (news: ReadNews) => void,
): ReadMachine {
  const accepted = new Set(kinds);
  const isOne = accepted.has("same-connectors");
  const documents = tables.length > 0 ? parts.map(({ imported }) => imported.document) : [];
  const shared = sharedConnectors(documents, isOne);
  const together = isOne && shared.length > 0;
  const result = together ? readTogether(tables, accepted, tell) : joinImports(parts, pairs);
  const questions = result.ok ? importProposals(result.value, accepted) : [];
  return summed(acceptJoins(result, accepted, on), [...shared, ...questions]);
}

function readTogether(
  tables: readonly TableFile[],
  accepted: ReadonlySet<AcceptedKind>,
  tell: (news: ReadNews) => void,
): ReadResult {
  const said = tables.flatMap(({ table }) => table ?? []);
  const { colours } = said.find((each) => each.colours) ?? {};
  const { decimal } = said.find((each) => each.decimal) ?? {};
  const known = said.flatMap((each) => each.known ?? []);
  const table = { known, accept: tableKinds(accepted), ...defined({ colours, decimal }) };
  const fileName = tables.map((each) => each.fileName).join(", ");
  return runReading(readTableFiles(tables, { fileName, table }), progress(tell, 0, 1)) ?? { ok: false, error: [] };
}

function summed(result: ReadResult, questions: readonly ImportProposal[]): ReadMachine {
  return { result, summary: result.ok ? summariseGaps(result.value.document) : [], questions };
}

/** Passes progress on, placed within that of the whole, a few times a second: a page has to draw it. */
function progress(tell: (news: ReadNews) => void, from: number, to: number): (progress: ReadProgress) => undefined {
  let last = 0;
  return ({ share, doing }) => {
    if (Date.now() - last < 100) return;
    last = Date.now();
    tell({ kind: "progress", progress: { share: from + share * (to - from), doing } });
  };
}
