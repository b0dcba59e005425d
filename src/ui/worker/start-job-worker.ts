import type { JobReplies, JobRequest } from "./job-messages.ts";
import { arrivedFault, type SentFault } from "./sent-fault.ts";

/** Answers to a question of one kind. */
type ReplyTo<Request extends JobRequest> = JobReplies[Request["kind"]];

/** The worker that plans jobs, as seen from the page. */
export interface JobWorker {
  /** Asks; the promise fails if the worker fails. Questions are answered in the order they are asked. */
  ask<Request extends JobRequest>(request: Request): Promise<ReplyTo<Request>>;
  close(): void;
}

interface Waiting {
  readonly done: (reply: never) => void;
  readonly failed: (fault: Error) => void;
}

/** A reply with the number of its question; or what went wrong in the program. */
type Numbered =
  { readonly number: number; readonly reply: never } | { readonly number: number; readonly failure: SentFault };

/** Starts the worker, so that the page stays alive while a job is being planned. */
export function startJobWorker(): JobWorker {
  const worker = new Worker(new URL("./job-worker.ts", import.meta.url), { type: "module" });
  const waiting = new Map<number, Waiting>();
  let count = 0;
  worker.addEventListener("message", ({ data }: MessageEvent<Numbered>) => {
    const asked = waiting.get(data.number);
    waiting.delete(data.number);
    if ("failure" in data) asked?.failed(arrivedFault(data.failure));
    else asked?.done(data.reply);
  });
  worker.addEventListener("error", (event) => {
    event.preventDefault();
    for (const { failed } of waiting.values()) failed(arrivedFault(event));
    waiting.clear();
  });
  return {
    ask: (request) =>
      new Promise((done, failed) => {
        count += 1;
        waiting.set(count, { done, failed });
        worker.postMessage({ number: count, request });
      }),
    close: () => worker.terminate(),
  };
}
