import { faultLine } from "../../base/index.ts";

/** A fault of a worker as it travels to the page: a thrown value may hold what cannot be sent. */
export interface SentFault {
  readonly text: string;
  readonly stack?: string;
}

/**
 * A fault as it is sent.
 *
 * @param fault What was thrown in the worker.
 */
export function sentFault(fault: unknown): SentFault {
  const stack = fault instanceof Error ? fault.stack : undefined;
  return { text: faultLine(fault), ...(stack !== undefined && { stack }) };
}

/**
 * A fault as it arrived, to be thrown where the work was asked for.
 *
 * @param sent What was sent; or the event of a worker that could not be started or died.
 */
export function arrivedFault(sent: SentFault | ErrorEvent): Error {
  if (!("text" in sent)) return new Error(sent.message || "The worker could not be started");
  const fault = new Error(sent.text);
  if (sent.stack !== undefined) fault.stack = sent.stack;
  return fault;
}
