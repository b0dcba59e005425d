import { importProblem } from "../import-problem.ts";
import { makePart } from "../xml/source/make-part.ts";
import { SourceFacts, type FactNames } from "../xml/source/source-facts.ts";
import type { Origins } from "../xml/source/account.ts";
import type { FittedWith, SourcePart } from "../xml/source/harness-source.ts";
import { childrenOf, type XmlDocument, type XmlElement } from "../xml/xml-element.ts";

const NAMES: FactNames = {
  absent: new Set(["/NULL"]),
  unit: "Unit_component",
  value: "Value_component",
  readUnit: (unit, facts) => ({
    siName: facts.text(unit, "Si_unit_name"),
    siPrefix: facts.text(unit, "Si_prefix"),
    exponent: exponentOf(facts.text(unit, "Si_dimension")),
    otherName: facts.text(unit, "Unit_name"),
  }),
};

function exponentOf(dimension: string | undefined): number {
  return dimension === "square" ? 2 : dimension === "cubic" ? 3 : 1;
}

/** A KBL file with the look-ups that its readers share. */
export interface KblFacts {
  readonly facts: SourceFacts;
  readonly harnesses: readonly XmlElement[];
  /** Modules that control a thing, by its id: the file fits it with any of them; and the configurations that say so. */
  readonly controlledBy: ReadonlyMap<string, Control>;
  /** Ids of the nodes that name a part, by the id of the part. */
  readonly nodeOf: ReadonlyMap<string, string>;
}

interface Control {
  readonly modules: Set<string>;
  readonly madeOf: XmlElement[];
}

/** Works out the look-ups of a KBL file. */
export function makeKblFacts(document: XmlDocument): KblFacts {
  const facts = new SourceFacts(document, NAMES);
  const harnesses = childrenOf(document.root, "Harness");
  const nodeOf = new Map<string, string>();
  for (const node of childrenOf(document.root, "Node")) {
    for (const name of ["Referenced_components", "Referenced_cavities"]) {
      for (const part of facts.references(node, name)) {
        if (part.id !== undefined && node.id !== undefined && !nodeOf.has(part.id)) nodeOf.set(part.id, node.id);
      }
    }
  }
  return { facts, harnesses, controlledBy: controlledBy(facts, harnesses), nodeOf };
}

function controlledBy(facts: SourceFacts, harnesses: readonly XmlElement[]): ReadonlyMap<string, Control> {
  const known = new Map<string, Control>();
  const take = (configuration: XmlElement, modules: readonly string[]): void => {
    for (const part of facts.references(configuration, "Controlled_components")) {
      if (part.id === undefined) continue;
      const control: Control = known.get(part.id) ?? { modules: new Set(), madeOf: [] };
      for (const module of modules) control.modules.add(module);
      control.madeOf.push(configuration);
      known.set(part.id, control);
    }
  };
  for (const harness of harnesses) {
    for (const module of childrenOf(harness, "Module")) {
      if (module.id === undefined) continue;
      for (const configuration of childrenOf(module, "Module_configuration")) take(configuration, [module.id]);
    }
    for (const configuration of childrenOf(harness, "Module_configuration")) {
      const listed = facts.text(configuration, "Logistic_control_information")?.split(/[\s,;]+/u) ?? [];
      const modules = listed.filter((id) => facts.document.ids.get(id)?.name === "Module");
      if (modules.length > 0) take(configuration, modules);
    }
  }
  return known;
}

/**
 * What a thing is fitted with: modules that control it or, for a part of a bought-in assembly, the modules that control the assembly.
 *
 * @param things The thing, then whatever it is a part of; the first that is controlled decides.
 */
export function fittedOf(
  { facts, controlledBy: known }: KblFacts,
  things: Origins,
): { readonly fitted: FittedWith; readonly madeOf: Origins } {
  for (const thing of things) {
    const own = known.get(thing?.id ?? "");
    if (own) return { fitted: own.modules, madeOf: own.madeOf };
    const assembly = facts.reference(thing, "Related_assembly");
    const whole = known.get(assembly?.id ?? "");
    if (whole) return { fitted: whole.modules, madeOf: [assembly, ...whole.madeOf] };
  }
  return { fitted: undefined, madeOf: [] };
}

/** What the file says of a part: its number, maker and description. A part without a number is none. */
export function partOf(
  { facts }: KblFacts,
  part: XmlElement | undefined,
  occurrence?: XmlElement,
): SourcePart | undefined {
  const number = facts.text(part, "Part_number");
  if (number === undefined) return undefined;
  const maker = facts.text(part, "Company_name");
  const description = facts.text(part, "Description") ?? facts.text(part, "Abbreviation");
  return { part: makePart(number, maker, description), madeOf: [part, occurrence] };
}

/** The element a reference leads to, if it is one of those that can stand there; otherwise that is reported. */
export function targetOf({ facts }: KblFacts, element: XmlElement, name: string, wanted: readonly string[]) {
  const target = facts.reference(element, name);
  if (!target || wanted.includes(target.name)) return target;
  const problem = { name, id: (target.id ?? "").slice(0, 80), found: target.name.slice(0, 80) };
  facts.report(importProblem("source-wrong-target", facts.place(element), problem));
  return undefined;
}

/** The inner point that a cavity of a component slot is: slot and number. */
export function innerName({ facts }: KblFacts, cavity: XmlElement): string {
  const slot = facts.text(cavity.parent, "Id") ?? "slot";
  return `${slot}.${facts.text(cavity, "Cavity_number") ?? cavity.id ?? ""}`;
}
