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
