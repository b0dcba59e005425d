import { classNames } from "../xml/source/class-names.ts";

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
