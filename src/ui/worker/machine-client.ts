import type { Result } from "../../base/index.ts";
import type { HarnessDocument, Problem } from "../../harness-model/index.ts";
import type { OpenedText, ReadNews, ReplyOf, RequestOf } from "../../application/index.ts";
import type { Name, SentCall, SentFault, SentReply } from "./machine-messages.ts";

/** Why a call has no reply: it was cancelled, or a newer one of its kind overtook it. Nobody has to be told of it. */
export class CallDropped extends Error {}

/** How a call is made. */
export interface CallOptions {
  /** Drops an older call of the same lane: only the newest one is wanted. */
  readonly lane?: string;
  /** It is short and a person waits for it: it goes before the others that wait. */
  readonly isQuick?: boolean;
  /** Cancels the call at once, also while it is worked on. */
  readonly signal?: AbortSignal;
  readonly onNews?: (news: ReadNews) => void;
  /** The machine it is about; calls about no machine leave it out. */
  readonly document?: HarnessDocument;
}

interface Waiting extends CallOptions {
  readonly number: number;
  readonly name: Name;
  readonly request: RequestOf<Name>;
  readonly done: (reply: ReplyOf<Name>) => void;
  readonly failed: (fault: Error) => void;
}

/**
 * A worker with one machine, as seen from the page. Calls are answered one after the other in the order they are made, quick ones first; the page stays
 * alive meanwhile. A worker that failed or was stopped is started again for the next call.
 */
export class MachineClient {
  #worker: Worker | undefined;
  /** The machine that the worker holds. */
  #told: HarnessDocument | undefined;
  #count = 0;
  #queue: Waiting[] = [];
  #running: Waiting | undefined;

  /**
   * Makes a call.
   *
   * @param name Which call.
   * @param request What is asked.
   * @param options About which machine; how it is dropped.
   * @returns The reply; the promise fails with {@link CallDropped}, or if the program does.
   */
  ask<Of extends Name>(name: Of, request: RequestOf<Of>, options: CallOptions = {}): Promise<ReplyOf<Of>> {
    return this.#call(name, request, options, () => undefined);
  }

  /** Opens the text of a document in the worker, which holds the machine then: its document need not be sent. */
  openText(text: string): Promise<Result<OpenedText, readonly Problem[]>> {
    return this.#call("open-text", text, {}, (opened) => {
      if (opened.ok) this.#told = opened.value.document;
    });
  }

  /** Makes a call; what has to be done before the next one is sent is done in `heard`. */
  #call<Of extends Name>(
    name: Of,
    request: RequestOf<Of>,
    options: CallOptions,
    heard: (reply: ReplyOf<Of>) => void,
  ): Promise<ReplyOf<Of>> {
    const { lane, signal } = options;
    if (lane !== undefined) this.#overtake(lane);
    return new Promise((done, failed) => {
      const number = ++this.#count;
      // A reply is of the kind of its call: the service sees to it.
      const hear = (reply: ReplyOf<Name>): void => {
        heard(reply);
        done(reply);
      };
      const others = this.#queue.findIndex((call) => options.isQuick === true && call.isQuick !== true);
      const place = others < 0 ? this.#queue.length : others;
      this.#queue.splice(place, 0, { ...options, number, name, request, done: hear, failed });
      signal?.addEventListener("abort", () => this.#drop(number), { once: true });
      this.#next();
    });
  }

  /** Ends at once what is worked on and what waits. */
  close(): void {
    const dropped = [...(this.#running ? [this.#running] : []), ...this.#queue];
    this.#stop();
    this.#queue = [];
    for (const { failed } of dropped) failed(new CallDropped());
  }

  #overtake(lane: string): void {
    const isOld = (call: Waiting): boolean => call.lane === lane;
    const old = this.#queue.filter(isOld);
    this.#queue = this.#queue.filter((call) => !isOld(call));
    // What is worked on comes to its end, so that the worker keeps what it knows; nobody hears of it.
    if (this.#running && isOld(this.#running)) old.push(this.#running);
    for (const { failed } of old) failed(new CallDropped());
  }

  #drop(number: number): void {
    const waiting = this.#queue.find((call) => call.number === number);
    this.#queue = this.#queue.filter((call) => call !== waiting);
    waiting?.failed(new CallDropped());
    if (this.#running?.number !== number) return;
    const { failed } = this.#running;
    this.#stop();
    failed(new CallDropped());
    this.#next();
  }

  #next(): void {
    if (this.#running) return;
    const call = this.#queue.shift();
    if (!call) return;
    this.#running = call;
    const worker = (this.#worker ??= this.#start());
    const { number, name, request, document } = call;
    const send = (sent: SentCall): void => worker.postMessage(sent);
    if (document && document !== this.#told) {
      this.#told = document;
      send({ number: 0, name: "open", request: document });
    }
    send({ number, name, request });
  }

  #start(): Worker {
    const worker = new Worker(new URL("./machine-worker.ts", import.meta.url), { type: "module" });
    worker.addEventListener("message", ({ data }: MessageEvent<SentReply>) => this.#hear(data));
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      if (worker !== this.#worker) return;
      const { failed } = this.#running ?? {};
      this.#stop();
      failed?.(new Error(event.message || "The worker could not be started"));
      this.#next();
    });
    return worker;
  }

  #hear(sent: SentReply): void {
    const call = this.#running;
    if (!call || ("failure" in sent && sent.number === 0)) {
      // The machine could not be opened: no call after it can be answered.
      const { failed } = call ?? {};
      if (!("failure" in sent)) return;
      this.#stop();
      failed?.(arrivedFault(sent.failure));
      return this.#next();
    }
    if (sent.number !== call.number) return;
    if ("news" in sent) return call.onNews?.(sent.news);
    this.#running = undefined;
    if ("failure" in sent) call.failed(arrivedFault(sent.failure));
    else call.done(sent.reply);
    this.#next();
  }

  #stop(): void {
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#told = undefined;
    this.#running = undefined;
  }
}

function arrivedFault({ text, stack }: SentFault): Error {
  const fault = new Error(text);
  if (stack !== undefined) fault.stack = stack;
  return fault;
}

/** The one machine worker of the page. */
export const machineClient = new MachineClient();
