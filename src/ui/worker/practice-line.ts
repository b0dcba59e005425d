import type { HarnessDocument } from "../../model/index.ts";
import type { NumberedReply, NumberedRequest, PracticeReply, PracticeRequest } from "./practice-messages.ts";
import { arrivedFault } from "./sent-fault.ts";

type ReplyTo<Kind extends PracticeReply["kind"]> = Extract<PracticeReply, { readonly kind: Kind }>;

interface Waiting {
  readonly hear: (reply: PracticeReply) => void;
  readonly fail: (fault: Error) => void;
}

/**
 * A line to a worker that practises on one machine: requests are answered in their order, and the page stays alive meanwhile. Closing
 * it ends at once what it is doing; nothing is heard of it any more.
 */
export class PracticeLine {
  /** Fingerprint of the harness data, once the machine is open. */
  readonly check: Promise<string>;
  readonly #document: HarnessDocument;
  #worker: Worker | undefined;
  readonly #waiting = new Map<number, Waiting>();
  #count = 0;

  constructor(document: HarnessDocument) {
    this.#document = document;
    this.#worker = this.#start();
    this.check = this.ask({ kind: "open", document }).then(({ check }) => check);
    // Whoever waits for the check hears of a failure; nobody may be waiting.
    this.check.catch(() => undefined);
  }

  /** Asks; the promise fails only if the program does. */
  ask<Kind extends PracticeRequest["kind"]>(
    request: Extract<PracticeRequest, { readonly kind: Kind }>,
  ): Promise<ReplyTo<Kind>> {
    const number = ++this.#count;
    return new Promise((done, fail) => {
      // A reply has the kind of its request: the bench sees to it.
      this.#waiting.set(number, { hear: (reply) => done(reply as ReplyTo<Kind>), fail });
      const message: NumberedRequest = { number, request };
      this.#worker ??= this.#reopen();
      this.#worker.postMessage(message);
    });
  }

  close(): void {
    this.#worker?.terminate();
    this.#waiting.clear();
  }

  #start(): Worker {
    const worker = new Worker(new URL("./practice-worker.ts", import.meta.url), { type: "module" });
    worker.addEventListener("message", ({ data }: MessageEvent<NumberedReply>) => this.#hear(data));
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      worker.terminate();
      if (this.#worker === worker) this.#worker = undefined;
      for (const { fail } of this.#waiting.values()) fail(arrivedFault(event));
      this.#waiting.clear();
    });
    return worker;
  }

  /** A new worker in the place of one that died, with the machine open; nobody waits for its reply. */
  #reopen(): Worker {
    const worker = this.#start();
    const message: NumberedRequest = { number: 0, request: { kind: "open", document: this.#document } };
    worker.postMessage(message);
    return worker;
  }

  #hear(message: NumberedReply): void {
    const waiting = this.#waiting.get(message.number);
    this.#waiting.delete(message.number);
    if ("failure" in message) waiting?.fail(arrivedFault(message.failure));
    else waiting?.hear(message.reply);
  }
}
