import { err, ok, type Result } from "../../base/index.ts";
import { circuitDiagram, writeDiagramSvg, type NoDiagram } from "../../drawing/index.ts";
import { encodeUtf8 } from "../../import-export/index.ts";
import type { Answer, CircuitAnswer } from "../answer.ts";
import { askCircuit } from "../ask-circuit.ts";
import { diagramMarks } from "../diagram-marks.ts";
import type { ErrorReport } from "../file-report.ts";
import { resolveContext } from "../machine-context.ts";
import type { Machine } from "../open-machine.ts";
import type { OpenSetting } from "../question.ts";
import { resolveText } from "../resolve-text.ts";

/** A circuit diagram as a file that is ready to be saved, with the answer that it is drawn from. */
export interface CircuitDiagramFile {
  readonly answer: CircuitAnswer;
  readonly mediaType: "image/svg+xml";
  readonly bytes: Uint8Array;
}

/** What a diagram is of and how it is drawn. */
interface DiagramWanted {
  /** The item as typed. */
  readonly point: string;
  /** Draws the shared feed from the battery too. */
  readonly wholeFeed?: boolean;
  /** Writes the expected voltage of the state at each point, and where a meter may go. */
  readonly volts?: boolean;
}

/**
 * Draws the circuit of an item as an SVG file, with machine and build above it and all cautions of the answer below it.
 *
 * @param machine The machine.
 * @param setting Build and state the answer shall hold for.
 * @param wanted The item, and what is drawn of its feed.
 * @returns The file and its answer; an answer that says why there is none; or, where the circuits are too many for one drawing or no wire
 *   ends at the item, what can be asked for.
 */
export function circuitDiagramFile(
  machine: Machine,
  setting: OpenSetting,
  { point, wholeFeed = false, volts = false }: DiagramWanted,
): Result<CircuitDiagramFile, Answer | ErrorReport> {
  const context = resolveContext(machine, setting);
  if (!context.ok) return context;
  const of = resolveText(context.value, point);
  if (!of.ok) return of;
  const answer = askCircuit(context.value, { kind: "circuit", point });
  if (answer.kind !== "circuit") return err(answer);
  const { harness } = context.value;
  const name = answer.of.label === answer.of.id ? answer.of.id : `${answer.of.id} ${answer.of.label}`;
  const marks = volts ? diagramMarks(machine, setting, { of: of.value, options: { wholeFeed } }) : new Map();
  const diagram = circuitDiagram(harness, of.value, {
    ...{ wholeFeed, marks },
    heading: [
      name,
      `${answer.machine}, build ${answer.build}${answer.state === undefined ? "" : `, state ${answer.state}`}`,
    ],
    footing: answer.cautions.map((caution) => `Caution: ${caution}`),
  });
  if (diagram.kind !== "diagram") return err(noDiagram(diagram));
  return ok({ answer, mediaType: "image/svg+xml", bytes: encodeUtf8(writeDiagramSvg(diagram)) });
}

function noDiagram(answer: NoDiagram): ErrorReport {
  return { kind: "error", code: "wrong-command", text: reasonOf(answer), problems: [] };
}

function reasonOf(answer: NoDiagram): string {
  if (answer.kind === "nothing") return `No wire ends at ${answer.of.id} in this build: there is nothing to draw.`;
  const ids = answer.items.map(({ id }) => id).join(", ");
  return `${answer.of.id} belongs to too many circuits for one diagram. Draw one of them: ${ids}.`;
}
