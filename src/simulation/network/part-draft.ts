import { keptFor } from "../../base/index.ts";
import type { Harness, HarnessEdge } from "../../harness-model/index.ts";
import { RESISTANCE_SHARE, type ContactResistanceOhm } from "../tables/typical-parts.ts";
import type {
  Assumption,
  CoilPart,
  ModuleNeed,
  Part,
  PartGroup,
  PartList,
  QuestionProblem,
  OperatingConditions,
  ElementState,
} from "./part.ts";

/** What must be said of a part; the rest has a usual value. */
type PartInput = Pick<Part, "key" | "owner" | "ohm"> & { readonly group: PartGroup } & Partial<Part>;

/** What must be said of a wire or a joint. */
interface ConductorInput {
  readonly key: string;
  readonly group: "wire" | "joint";
  readonly ohm: number;
  readonly present: boolean;
}

/** Collects parts while a list is made; not seen outside the room. */
export class PartDraft {
  #nodeKeys: string[];
  #sharesKeys: boolean;
  readonly parts: Part[];
  readonly from: number[];
  readonly to: number[];
  readonly coils: CoilPart[] = [];
  readonly modules: ModuleNeed[] = [];
  readonly #assumptions: Map<string, Assumption>;
  readonly #joints = new Set<string>();

  /** Starts empty, or as a copy of another draft to go on from; that one must have no coils and modules yet. */
  constructor(start: readonly string[] | PartDraft) {
    const isCopy = start instanceof PartDraft;
    // Names are looked up in a map made once for their list, so a copy keeps the list itself as long as it adds nothing to it.
    this.#nodeKeys = isCopy ? start.#nodeKeys : start.slice();
    this.#sharesKeys = isCopy;
    this.parts = isCopy ? start.parts.slice() : [];
    this.from = isCopy ? start.from.slice() : [];
    this.to = isCopy ? start.to.slice() : [];
    this.#assumptions = new Map(isCopy ? start.#assumptions : []);
  }

  /** Adds a node that the harness does not have. */
  node(key: string): number {
    if (this.#sharesKeys) this.#nodeKeys = this.#nodeKeys.slice();
    this.#sharesKeys = false;
    this.#nodeKeys.push(key);
    return this.#nodeKeys.length - 1;
  }

  add(from: number, to: number, part: PartInput): void {
    this.from.push(from);
    this.to.push(to);
    this.parts.push({
      key: part.key,
      owner: part.owner,
      group: part.group,
      ohm: part.ohm,
      volt: part.volt ?? 0,
      present: part.present ?? true,
      control: part.control,
      module: part.module,
      worksWhile: part.worksWhile ?? "awake",
      asleepOhm: part.asleepOhm ?? Infinity,
      tolerance: part.tolerance ?? RESISTANCE_SHARE[part.group],
      voltTolerance: part.voltTolerance ?? 0,
    });
  }

  /** Adds a wire or a joint: a plain resistance. Most parts are one, so they have a way of their own. */
  addConductor(from: number, to: number, part: ConductorInput): void {
    this.from.push(from);
    this.to.push(to);
    this.parts.push({
      key: part.key,
      owner: part.key,
      group: part.group,
      ohm: part.ohm,
      volt: 0,
      present: part.present,
      control: undefined,
      module: undefined,
      worksWhile: "awake",
      asleepOhm: Infinity,
      tolerance: RESISTANCE_SHARE[part.group],
      voltTolerance: 0,
    });
  }

  /** Adds a part that was made before. */
  addAgain(from: number, to: number, part: Part): void {
    this.from.push(from);
    this.to.push(to);
    this.parts.push(part);
  }

  /** How many things are taken for granted so far. */
  get assumptionCount(): number {
    return this.#assumptions.size;
  }

  /** Notes a typical joint, once. */
  assumeJoint({ source, ohm }: ContactResistanceOhm): void {
    if (this.#joints.has(source)) return;
    this.#joints.add(source);
    this.assume("typical", "", `${source}, ${ohm * 1000} mΩ`);
  }

  /** Notes something taken for granted, once. */
  assume(code: Assumption["code"], of: string, text: string): void {
    this.#assumptions.set(`${code} ${of} ${text}`, { code, of, text });
  }

  finish(reference: number): PartList {
    return {
      shape: {
        nodeCount: this.#nodeKeys.length,
        from: new Int32Array(this.from),
        to: new Int32Array(this.to),
      },
      parts: this.parts,
      nodeKeys: this.#nodeKeys,
      coils: this.coils,
      modules: this.modules,
      assumptions: [...this.#assumptions.values()],
      reference,
    };
  }
}

/** A situation looked up in its machine. */
export interface ResolvedConditions {
  readonly harness: Harness;
  readonly stateId: string | undefined;
  readonly isRunning: boolean;
  /** Whether the battery is disconnected: every filament is cold. */
  readonly isDead: boolean;
  readonly temperatureC: number;
  readonly nominalVolt: number;
  readonly elementStates: ReadonlyMap<string, ElementState>;
  readonly quantities: ReadonlyMap<string, number>;
  /** Connectors that are unplugged. */
  readonly unplugged: ReadonlySet<string>;
  /** Connectors with an adapter in line. */
  readonly inLine: ReadonlySet<string>;
  readonly problems: readonly QuestionProblem[];
}

/** Looks up state, settings, connectors and adapters of a situation; faults are looked up where they are applied. */
export function resolveConditions(harness: Harness, operatingConditions: OperatingConditions): ResolvedConditions {
  const problems: QuestionProblem[] = [];
  const { document } = harness;
  const state = document.states.find((each) => each.id === operatingConditions.state);
  if (operatingConditions.state !== undefined && !state) {
    const known = document.states.map((each) => each.id).join(", ");
    const text = `The machine has no state "${operatingConditions.state}"; it has ${known}`;
    problems.push({ code: "unknown-state", of: operatingConditions.state, text });
  }
  const elementStates = new Map<string, ElementState>(
    (state?.settings ?? []).map((setting) => [setting.of, setting.is]),
  );
  for (const setting of operatingConditions.settings ?? []) {
    if (!elementKeys(harness).has(setting.of))
      problems.push({
        code: "unknown-target",
        of: setting.of,
        text: `There is no element "${setting.of}" in this build`,
      });
    elementStates.set(setting.of, setting.is);
  }
  const quantities = new Map<string, number>((state?.quantities ?? []).map((each) => [each.name, each.value]));
  for (const { name, value } of operatingConditions.quantities ?? []) quantities.set(name, value);
  const temperatureC = operatingConditions.temperatureC ?? document.system.temperatureC;
  if (!(temperatureC >= -80 && temperatureC <= 200))
    problems.push({ code: "out-of-range", of: String(temperatureC), text: "The temperature must be -80 °C to 200 °C" });
  return {
    harness,
    stateId: state?.id,
    isRunning: state?.conditions.includes("running") ?? false,
    isDead: state?.conditions.includes("battery-disconnected") ?? false,
    temperatureC,
    nominalVolt: document.system.nominalVolt,
    elementStates,
    quantities,
    unplugged: findConnectors(harness, operatingConditions.unplugged ?? [], problems),
    inLine: findInLine(harness, operatingConditions.adapters ?? [], problems),
    problems,
  };
}

/** The connector a name of a connector or half belongs to, if it is fitted. */
export function connectorOf(harness: Harness, name: string): string | undefined {
  const id = harness.book.sides.get(name)?.connector.id ?? name;
  return harness.fitted.connectors.has(id) ? id : undefined;
}

/** Key of an element as faults and settings name it; the two edges of a divider share one. */
export function elementKey(edge: Extract<HarnessEdge, { kind: "element" }>): string {
  return edge.element.kind === "divider" ? `${edge.component.id}.${edge.element.id}` : edge.key;
}

const elementKeys = keptFor(
  (harness: Harness): ReadonlySet<string> =>
    new Set(harness.edges.flatMap((edge) => (edge.kind === "element" ? [elementKey(edge)] : []))),
);

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

/** Value of a quantity of the situation, or what stands in for one that is not given. */
export function quantityOf(
  draft: PartDraft,
  around: ResolvedConditions,
  asked: { readonly name: string; readonly key: string; readonly instead: number },
): number {
  const value = around.quantities.get(asked.name);
  if (value === undefined)
    draft.assume("missing", asked.key, `${asked.key}: ${asked.name} not given, assumed ${asked.instead}`);
  return value ?? asked.instead;
}
