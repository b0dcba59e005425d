import { OHMS_NO_EVIDENCE } from "../../simulation/index.ts";
import { isContactPermitted } from "../../measurement-safety/index.ts";
import type { MachineContext } from "../machine-context.ts";
import type { ExpectedReadingAnswer } from "./expected-answer.ts";
import type { JudgedLead } from "./judge-lead.ts";

/**
 * A reason of a reading, without the advice to read a drop under load where the line is driven far above battery voltage in some
 * state: there a loaded reading is never offered.
 *
 * @param context The machine in its build and state.
 * @param leads The leads of the reading.
 * @param reason The reason.
 */
export function withoutBoosted(
  context: MachineContext,
  leads: readonly JudgedLead[],
  { code, text }: ExpectedReadingAnswer["because"][number],
): ExpectedReadingAnswer["because"][number] {
  if (code !== "ohms-no-evidence" || !leads.some((lead) => isEverBoosted(context, lead))) return { code, text };
  const instead = `Below ${OHMS_NO_EVIDENCE} Ω a meter cannot show whether a path is good or bad. A voltage drop under load could show it. But this line is driven far above battery voltage in use, and contact is not permitted then. Follow the maker's procedure.`;
  return { code, text: instead };
}

function isEverBoosted({ harness, machine }: MachineContext, { at, item }: JudgedLead): boolean {
  const method = item.type === "stud" ? "tip" : "in-line";
  return machine.document.states.some((state) => {
    const answer = isContactPermitted(harness, state, { point: at, method, meter: "dc-voltage" });
    return answer.kind === "refused" && answer.rule === "boosted-line";
  });
}
