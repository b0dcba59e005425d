import {
  runReading,
  type ConfirmedMating,
  type ImportProblem,
  type MappingMemory,
  type MatingProposal,
  type ReadProgress,
  type ReadResult,
  type TableOptions,
  type WantedBuild,
} from "../../import-export/index.ts";
import type { Result } from "../../base/index.ts";
import type { HarnessDocument } from "../../harness-model/index.ts";
import type { JobRecord, Stamp } from "../../job-records/index.ts";
import type { Answer, ChooseAnswer } from "../answer.ts";
import { ask } from "../ask.ts";
import { importFile } from "../import/import-file.ts";
import { joinImports, proposePairs, type ImportPart } from "../import/join-imports.ts";
import { previewImport, type ImportPreview } from "../import/preview-import.ts";
import type { JobRequest } from "../job/begin-job.ts";
import type { JobChecksAnswer, JobRefusal } from "../job/job-answers.ts";
import { beginView, findChecks, stepView, viewJob, type JobMoved, type JobView } from "../job/job-service.ts";
import type { ChecksRequest } from "../job/job-views.ts";
import type { JobStep } from "../job/take-step.ts";
import { machineOf, type Machine } from "../open-machine.ts";
import type { OpenSetting, Question } from "../question.ts";
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
}

/** What came of reading a file: a machine or its problems; or a person has to say first what the columns of a table hold. */
export type ReadReply =
  | { readonly kind: "read"; readonly result: ReadResult }
  | { readonly kind: "needed"; readonly problems: readonly ImportProblem[] };

/** What is told on the way. */
export type ReadNews =
  | { readonly kind: "progress"; readonly progress: ReadProgress }
  | { readonly kind: "preview"; readonly preview: ImportPreview };

/** Everything that is asked of a machine, by name. Jobs, questions and practice need {@link MachineService} to hold a machine first. */
export interface MachineCalls extends TrainingCalls {
  readonly open: Call<HarnessDocument, undefined>;
  readonly ask: Call<{ readonly setting: OpenSetting; readonly question: Question }, Answer>;
  /** Several questions at once, in order. */
  readonly "ask-all": Call<
    { readonly setting: OpenSetting; readonly questions: readonly Question[] },
    readonly Answer[]
  >;
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
  readonly "import-join": Call<
    { readonly parts: readonly ImportPart[]; readonly pairs: readonly ConfirmedMating[] },
    ReadResult
  >;
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

  readonly #handlers: Handlers = {
    open: (document) => {
      this.#machine = machineOf(document);
      this.#practice = undefined;
      return undefined;
    },
    ask: ({ setting, question }) => ask(this.#open, setting, question),
    "ask-all": ({ setting, questions }) => questions.map((question) => ask(this.#open, setting, question)),
    "job-begin": ({ request, stamp }) => beginView(this.#open, request, stamp),
    "job-step": ({ record, step, stamp }) => stepView(this.#open, record, step, stamp),
    "job-view": ({ record, check }) => viewJob(this.#open, record, check),
    "job-checks": ({ record, ...request }) => findChecks(this.#open, record, request),
    "import-read": readFile,
    "import-propose": (parts) => proposePairs(parts),
    "import-join": ({ parts, pairs }) => joinImports(parts, pairs),
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

function readFile({ fileName, bytes, table, memory, builds }: ReadRequest, tell: (news: ReadNews) => void): ReadReply {
  const options = { fileName, table, ...(builds.length > 0 && { builds }) };
  const looked = runReading(previewImport(bytes, options, memory), progress(tell, 0, 0.3));
  if (!looked?.ok) return { kind: "read", result: { ok: false, error: looked?.error ?? [] } };
  const preview = looked.value;
  tell({ kind: "preview", preview });
  if (preview.kind === "table" && preview.preview.mapping.columns.length === 0)
    return { kind: "needed", problems: preview.preview.problems };
  const said =
    preview.kind === "table"
      ? { ...options, table: { ...table, mapping: preview.preview.mapping, headingRow: preview.preview.headingRow } }
      : options;
  const result = runReading(importFile(bytes, said), progress(tell, 0.3, 1));
  return { kind: "read", result: result ?? { ok: false, error: [] } };
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
