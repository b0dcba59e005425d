import { bandOf, methodName, shortReading, voltageFirst } from "../../application/index.ts";
import { formatLengthMm, formatMinutes, unreachable } from "../../base/index.ts";
import type { Answer, Facts, PathAnswer, ExpectedReadingAnswer } from "../../application/index.ts";
import { isAsking, isDrawn } from "./drawn-answer.ts";
import { tableLine } from "./readings-table.ts";
import { isNotPlaced, isReading, isTable } from "./readings.ts";

/** The answer in one line. */
export function headline(answer: Answer): string {
  if (isReading(answer)) return readingLine(answer);
  if (isTable(answer)) return tableLine(answer);
  if (answer.kind === "wrong-question") return answer.text;
  if (!isDrawn(answer)) return isAsking(answer) ? answer.text : "Answer";
  switch (answer.kind) {
    case "path":
      return betweenLine(answer);
    case "no-path":
      return `No path between ${answer.from.id} and ${answer.to.id}`;
    case "circuit": {
      const count = answer.circuits.length;
      const fuses = answer.fuses.filter((id) => id !== answer.of.id);
      const fused = fuses.length === 0 || fuses.length > 3 ? "" : `; fuse ${fuses.join(", ")}`;
      return `${nameOf(answer.of)}: ${count === 0 ? `no supply or load known, ${counted(answer.net.items.length, "item", "items")} on its net` : count === 1 ? "part of one circuit" : `part of ${count} circuits`}${fused}`;
    }
    case "common": {
      if (!answer.asked.some(({ mark }) => mark === "bad")) return "Mark at least one item that fails";
      const suspects = answer.items.filter((item) => item.isSuspect).length;
      const shared = answer.items.length;
      if (shared === 0) return "No common wiring in the data";
      return `Common wiring: ${counted(shared, "item", "items")}${suspects > 0 ? `; ${counted(suspects, "possible cause", "possible causes")}, in every circuit that fails and in none that works` : ""}`;
    }
    case "effect": {
      const count = answer.stopped.length;
      if (count + answer.stillFed.length === 0) return `Open circuit at ${answer.of.id}: no load known behind it`;
      return `Open circuit at ${answer.of.id}: ${count === 0 ? "nothing stops working" : count === 1 ? "1 item stops working" : `${count} items stop working`}`;
    }
    case "test-points": {
      const count = answer.points.length;
      const best = voltageFirst(answer.points)[0];
      if (best && answer.of.type !== "connector" && answer.of.type !== "component")
        return `Best test point for ${answer.of.id}: ${methodName(best.method)}, ${best.at ?? best.item.id}, ${formatMinutes(best.minutes)}`;
      return `${answer.of.id}: ${count === 0 ? "no test point" : counted(count, "test point", "test points")}, ${answer.refused.length} not permitted`;
    }
    default:
      return unreachable(answer);
  }
}

function readingLine(answer: ExpectedReadingAnswer): string {
  const points = answer.black === undefined ? answer.red : `${answer.red} against ${answer.black}`;
  const band = bandOf(answer);
  const faulty = answer.faults.length > 0 ? "Faulty machine, " : "";
  return `${faulty}${points}: ${isNotPlaced(answer) ? "no reading, a lead is not placed" : shortReading(answer)}${band === "" ? "" : ` (${band})`}`;
}

function betweenLine({ from, to, path, wireLengthMm }: PathAnswer): string {
  const length = wireLengthMm === undefined ? "" : `, ${formatLengthMm(wireLengthMm)} of wire`;
  return `${from.id} to ${to.id}: ${counted(path.length, "item", "items")} on the path${length}`;
}

function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** What an item is called, name first: `Rail pressure sensor B3`. */
function nameOf({ id, label }: Facts): string {
  const name = label.split(": ").at(-1)?.split(",")[0] ?? "";
  return name === "" || label === id ? id : `${name} ${id}`;
}
