import type { HarnessDocument } from "../../model/index.ts";
import type { JobReplies, JobRequest } from "../worker/job-messages.ts";
import { startJobWorker, type JobWorker } from "../worker/start-job-worker.ts";

/** The planner in its worker; it is started when it is first asked, and told about the machine when that has changed. */
export class JobPlanner {
  #worker: JobWorker | undefined;
  #told: HarnessDocument | undefined;

  /**
   * Asks the planner.
   *
   * @param document The open machine.
   * @param request The question.
   * @returns The answer; the promise fails if the planner fails, which the next question starts anew.
   */
  async ask<Request extends JobRequest>(
    document: HarnessDocument,
    request: Request,
  ): Promise<JobReplies[Request["kind"]]> {
    const worker = (this.#worker ??= startJobWorker());
    try {
      if (this.#told !== document) {
        this.#told = document;
        await worker.ask({ kind: "machine", document });
      }
      return await worker.ask(request);
    } catch (fault) {
      worker.close();
      if (this.#worker === worker) {
        this.#worker = undefined;
        this.#told = undefined;
      }
      throw fault;
    }
  }
}

/** The one planner of the page. */
export const jobPlanner = new JobPlanner();
