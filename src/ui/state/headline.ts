import { bandOf, shortReading } from "../../application/index.ts";
import { formatLengthMm, unreachable } from "../../base/index.ts";
import type { Answer, PathAnswer, ExpectedReadingAnswer } from "../../application/index.ts";
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
      return `Nothing joins ${answer.from.id} and ${answer.to.id}`;
    case "circuit": {
      const count = answer.circuits.length;
      return `${answer.of.id}: ${count === 0 ? `no supply or consumer known, ${counted(answer.net.items.length, "item", "items")} on its net` : count === 1 ? "part of one circuit" : `part of ${count} circuits`}`;
    }
    case "common": {
      const suspects = answer.items.filter((item) => item.isSuspect).length;
      const shared = answer.items.length;
      if (shared === 0) return "The data shows nothing that they share";
      return `They share ${counted(shared, "thing", "things")}${suspects > 0 ? `; ${suspects} ${suspects === 1 ? "is" : "are"} in every bad one and in no good one` : ""}`;
    }
    case "effect": {
      const count = answer.stopped.length;
      if (count + answer.stillFed.length === 0) return `Without ${answer.of.id}: no consumer is known behind it`;
      return `Without ${answer.of.id} ${count === 0 ? "nothing stops" : count === 1 ? "one thing stops" : `${count} things stop`}`;
    }
    case "test-points": {
      const count = answer.points.length;
      return `${answer.of.id}: ${count === 0 ? "no place to measure is offered" : counted(count, "place to measure", "places to measure")}, ${answer.refused.length} refused`;
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
  return `${from.id} to ${to.id}: ${counted(path.length, "thing", "things")} on the way${length}`;
}

function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}
