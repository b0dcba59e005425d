import type { JobFault, SuspectShare } from "../../diagnosis/index.ts";
import type { Harness } from "../../model/index.ts";
import { describeItem } from "../../trace/index.ts";
import type { JobEvent, StandingReading } from "../../records/index.ts";
import { formatCrossSectionMm2, unreachable } from "../../base/index.ts";
import { itemOfId } from "./item-of-id.ts";
import { joinWords } from "./job-picture.ts";

/** A share in whole percent; what is alive is never called 0 %. */
export function shareWords(share: number): string {
  if (share > 0.995 && share < 1) return "over 99 %";
  if (share > 0 && share < 0.005) return "under 1 %";
  return `${Math.round(share * 100)} %`;
}

/** How much a check tells, without bits. */
export function tellsWords(bits: number): string {
  if (bits >= 0.8) return "tells a lot";
  return bits >= 0.25 ? "tells something" : "tells little";
}

/** A verdict with its sign. */
export const VERDICTS: Readonly<Record<StandingReading["verdict"], { readonly sign: string; readonly words: string }>> =
  {
    "as-expected": { sign: "✓", words: "as it should be" },
    "not-as-expected": { sign: "✕", words: "not as it should be" },
    "no-verdict": { sign: "–", words: "says nothing" },
  };

/** What the thing of a suspect is called, such as "Rail pressure sensor" for `contact B3.X:2`; empty where nothing more is known. */
export function suspectPlace(harness: Harness, { label, group }: Pick<SuspectShare, "label" | "group">): string {
  if (group < 0) return "a fault that is not in this list";
  return label
    .split(" and ")
    .map((part) => placeWords(harness, part.split(" ")[1] ?? ""))
    .filter((each) => each !== "")
    .join("; ");
}

/** A ring is named `W06@GND-C1`, after its wire and the post it sits on. */
function placeWords(harness: Harness, name: string): string {
  const [id = "", at] = name.split("@");
  const item = itemOfId(harness, id);
  const { label, component, connector, colour, crossSectionMm2 } = describeItem(harness, item);
  const owner = component ?? harness.fitted.connectors.get(connector ?? item.id)?.component;
  const size = crossSectionMm2 === undefined ? "" : ` ${formatCrossSectionMm2(crossSectionMm2)}`;
  return joinWords([
    harness.fitted.components.get(owner ?? "")?.label,
    label === id ? undefined : label,
    colour === undefined ? undefined : `${colour}${size}`,
    at === undefined ? undefined : `at ${describeItem(harness, itemOfId(harness, at)).label}`,
  ]);
}

/** Why a step was not taken, as a sentence. */
export function jobFaultWords(fault: JobFault): string {
  switch (fault.kind) {
    case "forbidden":
    case "wrong-reading":
    case "other-machine":
      return fault.reason;
    case "unknown-check":
      return "There is no such check in this job any more; the circuits it belongs to have changed.";
    case "unknown-event":
      return "That line of the log is not there any more.";
    default:
      return unreachable(fault);
  }
}

/** A line of the log that is no reading, in words; undefined for lines that show elsewhere. */
export function eventWords(event: JobEvent): string | undefined {
  switch (event.kind) {
    case "complaint":
      return "Complaint written down";
    case "code":
      return `Code ${event.code}: ${event.status}`;
    case "symptom":
      return `Function ${event.thing}: ${event.is}`;
    case "equipment":
      return `${event.adapters.length} adapters at hand`;
    case "prior":
      return `Weight of ${event.of} times ${event.factor}: ${event.origin}`;
    case "cause":
      return `Cause: ${event.text}`;
    case "repair":
      return `Repair: ${event.text}`;
    case "note":
      return `Note: ${event.text}`;
    case "closed":
      return `Closed: ${event.outcome.replaceAll("-", " ")}`;
    case "proof":
      return `Proof: ${event.check.point}: ${VERDICTS[event.verdict].words}`;
    case "reading":
    case "amend":
    case "undo":
      return undefined;
    default:
      return unreachable(event);
  }
}
