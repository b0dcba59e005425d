import { isPermittedAt, type Adapter, type HarnessNode } from "../../harness-model/index.ts";
import type { ExerciseEvent } from "../../job-records/index.ts";
import { adapterOf, fittedKey, type ExerciseState } from "./exercise-state.ts";

type Lead = Extract<ExerciseEvent, { kind: "measure" }>["red"];

/** A method for a lead at a point, permitted or not: the trainee has to know which. */
export interface LeadOffer {
  readonly lead: Lead;
  readonly label: string;
}

const LABELS: Readonly<Record<Lead["method"], string>> = {
  clamp: "current clamp around the wire",
  tip: "probe on exposed terminal",
  clip: "clip lead on exposed terminal",
  "fuse-window": "probe on the fuse test point",
  "mating-adapter": "mating adapter",
  "in-line": "breakout lead in line",
  "relay-extension": "relay breakout adapter",
  "front-probe": "front probe with a matching test terminal",
  screw: "probe on the screw head",
  "back-probe": "back-probing past the seal",
  pierce: "insulation piercing",
  "tip-in-socket": "probe pushed into the cavity",
};

/**
 * The methods for a lead at an item in the present state, permitted ones and others in one list and in a fixed order.
 * Which of them the rules stop is not shown; that is the exercise.
 *
 * @param point Canonical address of a point, or id of a wire.
 */
export function leadOffers(exercise: ExerciseState, point: string): readonly LeadOffer[] {
  const { harness, fitted } = exercise;
  const offer = (method: Lead["method"], adapter?: string): LeadOffer => {
    const label =
      adapter === undefined ? LABELS[method] : `${LABELS[method]} (${adapterOf(harness, adapter)?.label ?? adapter})`;
    return { lead: { point, method, ...(adapter === undefined ? {} : { adapter }) }, label };
  };
  if (harness.fitted.wires.has(point)) return [offer("clamp"), offer("pierce")];
  const node = harness.nodes[harness.nodeNumbers.get(point) ?? -1];
  if (!node) return [];
  const fittedHere = harness.document.adapters.filter(
    (adapter) => isTouchableThrough(exercise, adapter, node) && fitted.includes(fittedKey(harness, adapter.id, point)),
  );
  const adapters = fittedHere.map(({ id, method }) => offer(method === "mating" ? "mating-adapter" : method, id));
  return [...adapters, ...methodsAt(exercise, node).map((method) => offer(method))];
}

function isTouchableThrough(exercise: ExerciseState, { points, fits }: Adapter, node: HarnessNode): boolean {
  if (points === "all") return node.kind === "contact" && fits.includes(node.connector.id);
  return points?.some((each) => sameContact(exercise, each, node)) ?? false;
}

function sameContact({ harness }: ExerciseState, address: string, node: HarnessNode): boolean {
  if (node.kind !== "contact") return address === node.key;
  const colon = address.lastIndexOf(":");
  const owner = harness.book.sides.get(address.slice(0, colon))?.connector.id ?? address.slice(0, colon);
  return owner === node.connector.id && address.slice(colon + 1) === node.cavity.id;
}

function methodsAt({ setup, harness }: ExerciseState, node: HarnessNode): readonly Lead["method"][] {
  switch (node.kind) {
    case "stud":
      return ["tip", "clip"];
    case "splice":
      return ["pierce"];
    case "open-end":
      return [];
    case "inner":
      return isAtFuse(harness, node.key) ? ["fuse-window"] : [];
    case "contact": {
      const isOpen = setup.unplugged.includes(node.connector.id) || node.connector.sides.length === 1;
      const hasScrews = isPermittedAt(node.connector, "screw") || node.side.contacts === "screws";
      const window: readonly Lead["method"][] = isAtFuse(harness, node.key) ? ["fuse-window"] : [];
      return isOpen
        ? [...window, ...(hasScrews ? (["screw"] as const) : []), "front-probe", "tip-in-socket"]
        : [...window, ...(hasScrews ? (["screw"] as const) : []), "back-probe"];
    }
  }
}

function isAtFuse(harness: ExerciseState["harness"], key: string): boolean {
  const { offsets, arcEdges } = harness.index;
  const number = harness.nodeNumbers.get(key) ?? -1;
  return arcEdges.subarray(offsets[number] ?? 0, offsets[number + 1] ?? 0).some((at) => {
    const edge = harness.edges[at];
    return edge?.kind === "element" && edge.element.kind === "fuse";
  });
}
