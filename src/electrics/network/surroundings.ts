import type { Harness, HarnessEdge } from "../../model/index.ts";
import type { QuestionProblem, Situation, Stand } from "./situation.ts";

/** A situation looked up in its machine. */
export interface Surroundings {
  readonly harness: Harness;
  readonly stateId: string | undefined;
  readonly isRunning: boolean;
  readonly temperatureC: number;
  readonly nominalVolt: number;
  readonly stands: ReadonlyMap<string, Stand>;
  readonly quantities: ReadonlyMap<string, number>;
  /** Connectors that are unplugged. */
  readonly unplugged: ReadonlySet<string>;
  /** Connectors with an adapter in line. */
  readonly inLine: ReadonlySet<string>;
  readonly problems: readonly QuestionProblem[];
}

/** Looks up state, settings, connectors and adapters of a situation; faults are looked up where they are applied. */
export function lookUpSurroundings(harness: Harness, situation: Situation): Surroundings {
  const problems: QuestionProblem[] = [];
  const { document } = harness;
  const state = document.states.find((each) => each.id === situation.state);
  if (situation.state !== undefined && !state) {
    const known = document.states.map((each) => each.id).join(", ");
    const text = `The machine has no state "${situation.state}"; it has ${known}`;
    problems.push({ code: "unknown-state", of: situation.state, text });
  }
  const stands = new Map<string, Stand>((state?.settings ?? []).map((setting) => [setting.of, setting.is]));
  for (const setting of situation.settings ?? []) {
    if (!elementKeys(harness).has(setting.of))
      problems.push({
        code: "unknown-target",
        of: setting.of,
        text: `There is no element "${setting.of}" in this build`,
      });
    stands.set(setting.of, setting.is);
  }
  const quantities = new Map<string, number>((state?.quantities ?? []).map((each) => [each.name, each.value]));
  for (const { name, value } of situation.quantities ?? []) quantities.set(name, value);
  const temperatureC = situation.temperatureC ?? document.system.temperatureC;
  if (!(temperatureC >= -80 && temperatureC <= 200))
    problems.push({ code: "out-of-range", of: String(temperatureC), text: "A temperature of -80 to 200 C is wanted" });
  return {
    harness,
    stateId: state?.id,
    isRunning: state?.conditions.includes("running") ?? false,
    temperatureC,
    nominalVolt: document.system.nominalVolt,
    stands,
    quantities,
    unplugged: findConnectors(harness, situation.unplugged ?? [], problems),
    inLine: findInLine(harness, situation.adapters ?? [], problems),
    problems,
  };
}

/** The connector a name of a connector or half belongs to, if it is fitted. */
export function connectorOf(harness: Harness, name: string): string | undefined {
  const id = harness.book.halves.get(name)?.connector.id ?? name;
  return harness.fitted.connectors.has(id) ? id : undefined;
}

/** Key of an element as faults and settings name it; the two edges of a divider share one. */
export function elementKey(edge: Extract<HarnessEdge, { kind: "element" }>): string {
  return edge.element.kind === "divider" ? `${edge.component.id}.${edge.element.id}` : edge.key;
}

// Read once a harness, which never changes.
const knownKeys = new WeakMap<Harness, ReadonlySet<string>>();

function elementKeys(harness: Harness): ReadonlySet<string> {
  let keys = knownKeys.get(harness);
  if (!keys) {
    keys = new Set(harness.edges.flatMap((edge) => (edge.kind === "element" ? [elementKey(edge)] : [])));
    knownKeys.set(harness, keys);
  }
  return keys;
}

function findConnectors(harness: Harness, names: readonly string[], problems: QuestionProblem[]): Set<string> {
  const found = new Set<string>();
  for (const name of names) {
    const id = connectorOf(harness, name);
    if (id === undefined)
      problems.push({ code: "unknown-connector", of: name, text: `There is no connector "${name}" in this build` });
    else found.add(id);
  }
  return found;
}

function findInLine(harness: Harness, names: readonly string[], problems: QuestionProblem[]): Set<string> {
  const found = new Set<string>();
  for (const name of names) {
    const adapter = harness.document.adapters.find((each) => each.id === name);
    if (!adapter) problems.push({ code: "unknown-adapter", of: name, text: `There is no adapter "${name}"` });
    else if (adapter.method === "in-line") for (const id of adapter.fits) found.add(id);
  }
  return found;
}
