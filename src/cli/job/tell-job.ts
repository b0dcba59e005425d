import { writeJobAnswer, type JobAnswer, type JobTextOptions } from "../../application/index.ts";
import type { ExitCode } from "../exit-code.ts";
import type { CommandIo } from "../io.ts";
import { jsonText } from "../tell.ts";

/** How an answer about a job is told. */
export interface JobTelling extends JobTextOptions {
  readonly asJson: boolean;
}

/**
 * Tells an answer about a job: as text, or as one JSON document. A refusal because the question was wrong goes to standard error.
 *
 * @param io Where to write.
 * @param answer The answer.
 * @param telling How.
 * @returns How the command ends.
 */
export function tellJob(io: CommandIo, answer: JobAnswer, { asJson, ...options }: JobTelling): ExitCode {
  const code = jobExitCode(answer);
  if (asJson) io.out(jsonText(answer));
  if (code === 2) io.err(writeJobAnswer(answer, options));
  else if (!asJson) io.out(writeJobAnswer(answer, options));
  return code;
}

/** 1 where no check can be told: airbag and high-voltage lines, nothing to go on, no fault that agrees with the readings. */
function jobExitCode(answer: JobAnswer): ExitCode {
  if (answer.kind === "job-refused") return answer.reason === "forbidden" ? 1 : 2;
  if (answer.kind !== "job-next") return 0;
  const { kind } = answer.suggestion;
  return kind === "look-wider" || kind === "nothing-to-go-on" ? 1 : 0;
}
