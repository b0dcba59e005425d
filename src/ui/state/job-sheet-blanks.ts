import { formatMinutes } from "../../base/index.ts";
import type { JobFacts } from "../../records/index.ts";
import { momentWords } from "./job-clock.ts";
import { VERDICTS } from "./job-words.ts";

/**
 * What is known of the lines at the foot of the sheet; what is not known is left to be written by hand.
 *
 * @param facts Where the job stands.
 * @returns Texts by the label of the line.
 */
export function filledBlanks({ cause, repairs, proofs, closed }: JobFacts): ReadonlyMap<string, string> {
  const minutes = repairs.reduce((sum, repair) => sum + (repair.minutes ?? 0), 0);
  const last = new Map(proofs.map((proof) => [proof.check.key, proof]));
  const proven = [...last.values()].map(({ check, verdict }) => `${VERDICTS[verdict].sign} ${check.point}`);
  return new Map([
    ["Cause", cause?.text ?? ""],
    ["Correction", repairs.map(({ text }) => text).join("; ")],
    ["Parts", repairs.flatMap(({ parts }) => parts).join(", ")],
    ["Proof of repair", proven.join(" ")],
    ["Not checked", closed?.notChecked ?? ""],
    ["Time", minutes > 0 ? `repair ${formatMinutes(minutes)}` : ""],
    ["Date", closed ? momentWords(closed.at) : ""],
  ]);
}
