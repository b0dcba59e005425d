import { unreachable } from "../../base/index.ts";
import type { OpenEffectAnswer } from "../answer.ts";
import { columns } from "./columns.ts";
import { factRow, named } from "./fact-row.ts";
import { counted, frame, section } from "./frame.ts";

/**
 * Effect of an open circuit, as lines.
 *
 * @param answer The answer.
 */
export function writeEffect(answer: OpenEffectAnswer): readonly string[] {
  const { of, stopped, stillFed, parted } = answer;
  const rows = stopped.map((each) => {
    const [sort = "", id = "", what = ""] = factRow(each);
    const because = each.because === undefined ? "" : `because ${each.because.id} stops`;
    return [sort, id, what, each.lost.map(lossWords).join(", "), because];
  });
  const stops =
    stopped.length + stillFed.length === 0
      ? "no consumer known"
      : stopped.length === 1
        ? "1 item stops"
        : `${counted(stopped.length, "item")} stop`;
  return frame(`Effect if ${named(of)} is open or disconnected: ${stops}`, answer, [
    ...(stopped.length === 0 ? [nothingWords(answer)] : ["Stops", ...columns(rows)]),
    ...section(
      "Separated by it",
      parted.map((group) => `  ${group.join(", ")}`),
    ),
    ...section(
      "In its circuit, but still supplied over another path",
      stillFed.length === 0 ? [] : [`  ${stillFed.join(", ")}`],
    ),
  ]);
}

function nothingWords({ stillFed }: OpenEffectAnswer): string {
  return stillFed.length > 0 ? "Nothing stops." : "No supply or consumer is known whose circuit passes it.";
}

function lossWords(loss: OpenEffectAnswer["stopped"][number]["lost"][number]): string {
  switch (loss) {
    case "itself":
      return "is itself open";
    case "supply":
      return "loses its supply";
    case "ground":
      return "loses its ground";
    case "module":
      return "loses a pin of its control unit";
    case "outlet":
      return "loses an unmated connector";
    default:
      return unreachable(loss);
  }
}
