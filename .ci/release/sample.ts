// A program outside the project, as somebody would write it who has only the installed package. It asks every question of the door and
// throws where an answer is not what the demo machine must give. No types of Node or a browser are used.
import {
  circuit,
  common,
  expectedReading,
  find,
  fitBuild,
  harnessGraph,
  openEffect,
  openMachine,
  path,
  testPoints,
  writeAnswer,
  type CircuitAnswer,
  type CommonAnswer,
  type ExpectedReadingAnswer,
  type FindAnswer,
  type Harness,
  type HarnessGraph,
  type Machine,
  type OpenEffectAnswer,
  type PathAnswer,
  type Result,
  type TestPointsAnswer,
  type Where,
} from "ohmward";
import {
  nextCheck,
  readRecord,
  resumeJob,
  startJob,
  takeStep,
  writeRecord,
  type JobStep,
  type NextCheckAnswer,
  type OpenJob,
} from "ohmward/diagnosis";
import { EXPORT_FORMATS, exportMachine, importMachine } from "ohmward/formats";
import demo from "ohmward/demo-harness/firnlark-45.ohm.json" with { type: "json" };

/** What was asked and what came back, a line each. */
export const report: string[] = [];

function must<Value>(result: Result<Value, unknown>, what: string): Value {
  if (!result.ok) throw new Error(`${what}: ${JSON.stringify(result.error)}`);
  return result.value;
}

function check(isTrue: boolean, what: string): void {
  if (!isTrue) throw new Error(`Not as it must be: ${what}`);
  report.push(what);
}

const machine: Machine = must(openMachine(JSON.stringify(demo)), "openMachine");
const where: Where = { build: "base", state: "KOEO" };

const hits: FindAnswer = only(find(machine, "rail pressure", where), "find");
check(hits.hits.length > 0, `find: ${hits.hits.length} hits for "rail pressure"`);

const way: PathAnswer = only(path(machine, { from: "A1.X1:36", to: "B3" }, where), "path");
check(way.path.length === 3, `path: ${way.path.map(({ id }) => id).join(" - ")}`);
check(path(machine, { from: "no such thing", to: "B3" }, where).kind === "unknown", "path: an unknown name is said");
check(
  path(machine, { from: "A1.X1:36", to: "B3" }, { build: "none" }).kind === "choose-build",
  "path: a variant is asked for",
);

const feeds: CircuitAnswer = only(circuit(machine, "B3", where), "circuit");
check(feeds.circuits.length > 0, `circuit: ${feeds.circuits.length} circuits at B3`);

const items = ["B3", "B4"].map((text) => ({ text, mark: "bad" as const }));
const shared: CommonAnswer = only(common(machine, items, where), "common");
check(shared.items.length > 0, `common: ${shared.items[0]?.id} first of ${shared.items.length}`);

const effect: OpenEffectAnswer = only(openEffect(machine, "A3.F3", where), "effect");
check(effect.stopped.length > 0, `openEffect: ${effect.stopped.length} items stop without A3.F3`);

const points: TestPointsAnswer = only(testPoints(machine, "B3.X:3", where), "test-points");
check(points.points.length > 0 && points.refused.length > 0, `testPoints: ${points.points[0]?.how}`);

const reading: ExpectedReadingAnswer = only(
  expectedReading(machine, { red: "B3.X:3", calculateOnly: true }, where),
  "value",
);
check(reading.kind === "value", `expectedReading: ${reading.text}`);
check(writeAnswer(reading).includes("B3.X"), "writeAnswer: a text for people");

const harness: Harness | undefined = fitBuild(machine.document, "base");
if (!harness) throw new Error("fitBuild: no build");
const graph: HarnessGraph = harnessGraph(harness);
// @ts-expect-error The graph is read-only by its type.
void graph.dropNode;
check(
  graph.order === harness.nodes.length && graph.neighbors("SP1").length > 1,
  `harnessGraph: ${graph.order} nodes, ${graph.size} edges`,
);
const copy = graph.copy();
copy.dropNode("SP1");
check(graph.hasNode("SP1") && !copy.hasNode("SP1"), "harnessGraph: a copy may be changed");

for (const { id } of EXPORT_FORMATS) {
  const file = must(exportMachine(machine, { format: id, build: "base" }), `exportMachine ${id}`);
  check(file.bytes.length > 0, `exportMachine: ${file.fileName}, ${file.bytes.length} bytes`);
}
const written = must(exportMachine(machine, { format: "json" }), "exportMachine");
const again = must(importMachine(written.bytes, { fileName: written.fileName }), "importMachine");
check(
  again.machine.document.wires.length === machine.document.wires.length,
  "importMachine: the harness document comes back",
);
const list = must(exportMachine(machine, { format: "wire-list-csv" }), "exportMachine");
const table = must(importMachine(list.bytes, { fileName: list.fileName }), "importMachine");
check(
  table.machine.document.wires.length > 50,
  `importMachine: ${table.machine.document.wires.length} wires of a table`,
);
const nothing = importMachine(new Uint8Array(), { fileName: "empty.csv" });
check(!nothing.ok && nothing.error.length === 1, "importMachine: an empty file is said");

let minute = 0;
const stamp = () => ({ at: `2026-01-01T08:${String(minute++).padStart(2, "0")}:00Z`, writer: "sample" });
const request = { id: "job-1", build: "base", complaint: "derates when warm", codes: ["FE111"] };
let job: OpenJob = must(startJob(machine, request, stamp()), "startJob");
const first: NextCheckAnswer = nextCheck(job);
if (first.suggestion.kind !== "check") throw new Error("nextCheck: no check");
check(first.suggestion.outcomes.length > 1, `nextCheck: ${first.suggestion.why[0]}`);
const step = (what: string, take: JobStep): void => {
  const taken = must(takeStep(machine, job.state.record, take, stamp()), what);
  job = must(taken.opened, what);
  report.push(`${what}: ${taken.written.text}`);
};
step("skip", { kind: "skip", reason: "no room" });
step("reading", { kind: "reading", value: "not sure" });
step("repair", { kind: "repair", text: "terminal replaced" });
const proofs = nextCheck(job).suggestion;
if (proofs.kind !== "prove") throw new Error("nextCheck: no proofs after the repair");
const trial = proofs.proofs.at(-1)?.number ?? 0;
step("proof", { kind: "proof", number: trial, value: "as expected" });
step("close", { kind: "close", outcome: "repaired" });
const record = must(readRecord(writeRecord(job.state.record)), "readRecord");
check(
  nextCheck(must(resumeJob(machine, record), "resumeJob")).suggestion.kind === "closed",
  "resumeJob: the job is closed",
);

/** An answer that must be of one kind. */
function only<Answer extends { readonly kind: string }, Kind extends Answer["kind"]>(
  answer: Answer,
  kind: Kind,
): Extract<Answer, { readonly kind: Kind }> {
  if (answer.kind !== kind) throw new Error(`"${kind}" was expected: ${JSON.stringify(answer)}`);
  return answer as Extract<Answer, { readonly kind: Kind }>;
}
