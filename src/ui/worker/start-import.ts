import type { ImportReply, ImportRequest } from "./import-messages.ts";
import { arrivedFault } from "./sent-fault.ts";

/** A piece of work under way. */
export interface ImportWork {
  /** Ends it at once; nothing is heard of it any more. */
  cancel(): void;
}

/** Who is told what comes of the work. */
export interface ImportListener {
  onReply(reply: Exclude<ImportReply, { readonly kind: "failed" }>): void;
  /** The program failed, or the device ran out of memory. */
  onFailure(fault: Error): void;
}

/** Starts a piece of work in a worker of its own, so that the page stays alive and the work can be stopped at any moment. */
export function startImport(request: ImportRequest, { onReply, onFailure }: ImportListener): ImportWork {
  const worker = new Worker(new URL("./import-worker.ts", import.meta.url), { type: "module" });
  worker.addEventListener("message", (event: MessageEvent<ImportReply>) => {
    const isLast = event.data.kind !== "progress" && event.data.kind !== "preview";
    if (isLast) worker.terminate();
    if (event.data.kind === "failed") onFailure(arrivedFault(event.data.failure));
    else onReply(event.data);
  });
  worker.addEventListener("error", (event) => {
    event.preventDefault();
    worker.terminate();
    onFailure(arrivedFault(event));
  });
  worker.postMessage(request);
  return { cancel: () => worker.terminate() };
}
