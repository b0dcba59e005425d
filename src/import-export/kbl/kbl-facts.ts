import { importProblem } from "../import-problem.ts";
import { classNames, FittedBy, makePart, SourceFacts, type FactNames, type Origins } from "../xml/source-facts.ts";
import type { FittedWith, SourcePart } from "../xml/harness-source.ts";
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
  readonly controlledBy: FittedBy["known"];
  /** Ids of the nodes that name a part, by the id of the part. */
  readonly nodeOf: ReadonlyMap<string, string>;
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

function controlledBy(facts: SourceFacts, harnesses: readonly XmlElement[]): FittedBy["known"] {
  const controls = new FittedBy();
  const take = (configuration: XmlElement, modules: readonly string[]): void => {
    controls.take(facts.references(configuration, "Controlled_components"), modules, configuration);
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
  return controls.known;
}

/**
 * What a thing is fitted with: modules that control it or, for a part of a bought-in assembly, the modules that control the assembly.
 *
 * @param items The thing, then whatever it is a part of; the first that is controlled decides.
 */
export function fittedOf(
  { facts, controlledBy: known }: KblFacts,
  items: Origins,
): { readonly fitted: FittedWith; readonly madeOf: Origins } {
  for (const item of items) {
    const own = known.get(item?.id ?? "");
    if (own) return { fitted: own.keys, madeOf: own.madeOf };
    const assembly = facts.reference(item, "Related_assembly");
    const whole = known.get(assembly?.id ?? "");
    if (whole) return { fitted: whole.keys, madeOf: [assembly, ...whole.madeOf] };
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

/**
 * Classes of the elements of KBL that have another name than their class: the class, then its elements, those with the class of the
 * element around them before a slash only in that one. An attribute `xsi:type` goes before.
 *
 * Source: the KBL schemas 2.3 SR-1, 2.4 SR-1 and 2.5 SR-1.
 */
export const KBL_CLASSES = classNames(`
  Abstract_slot: Integrated_slots
  Abstract_slot_occurrence: Component_box_connector_occurrence/Slots
  Alias_identification: Alias_id
  B_spline_curve: Center_curve
  Cavity: Cavities
  Cavity_occurrence: Slot_occurrence/Cavities
  Change_description: Change_descriptions
  Component_box_connection: Connections
  Component_box_connector: Component_box/Component_box_connectors
  Component_box_connector_occurrence: Component_box_connectors
  Component_cavity: Component_cavities
  Component_cavity_occurrence: Component_slot_occurrence/Component_cavities
  Component_pin_map: Component_pin_maps
  Component_slot: Component_box/Component_slots
  Component_slot_occurrence: Component_slots
  Consumers: AttachedConsumers
  Contact_point: Contact_points
  Cross_section_area: Cross_section_area_information
  Extremity: Extremities
  Fuse_type: Type Valid_fuse_types
  Installation_instruction: Installation_information
  Localized_string: Localized_description Special_routed_comment
  Material: Material_information
  Module_family: Module_families
  Numerical_value: Absolute_end_location Absolute_location Absolute_start_location Area Bend_radius Cross_section_area
    Designed_operating_current Dimension_value Length_value Lower_limit Mass_information Max_current Maximum_operating_current
    Min_current Nominal_current Outside_diameter Physical_length Protection_length Upper_limit Virtual_length
  Part_substitution: Replacing
  Processing_instruction: Processing_information
  Slot: Connector_housing/Slots
  Slot_occurrence: Slots
  Tolerance: Tolerance_indication
  Transformation: Placement
  Value_range: General_terminal/Cross_section_area Dimension_value_range General_terminal/Outside_diameter Wire_size
  Value_with_unit: Gradient
  Wire_colour: Core_colour Cover_colour
  Wire_length: Length_information
`);

/**
 * Elements of KBL whose text is one or more ids of other elements.
 *
 * Source: the KBL schemas 2.3 SR-1, 2.4 SR-1 and 2.5 SR-1, elements of the types IDREF and IDREFS.
 */
export const KBL_REFERENCES: ReadonlySet<string> = new Set(
  `Allowed_inserts Assigned_wire Associated_parts Associated_plug Associated_protection Cartesian_point Cavities
   Changed_elements Compatible_housings Component_cavities Connected_contact_points Contact_point Contacted_cavity
   Control_points Controlled_components End_node External_reference External_references Fixing Folding_direction
   Is_applied_to Is_on_top_of Mandatory_segments Mated_cavities Mated_slots Modules Mounting Of_family Origin Part
   Realized_schematic_connection Reference_element Referenced_cavities Referenced_components Related_assembly
   Related_changes Related_occurrence Replaced Routed_wire Segments Start_node Target Unit_component Used_insets Wire`.split(
    /\s+/u,
  ),
);

/** A connector of the harness or of a box, by the key it has in the source. */
export interface SlotOwner {
  readonly key: string;
  readonly element: XmlElement;
}
