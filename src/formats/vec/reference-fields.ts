/**
 * Elements of VEC whose text is one or more ids of other elements. `DocumentVersion` is left out: it is also the name of a plain text.
 *
 * Source: the VEC schemas 1.2.2 and 2.1.0, elements of the types IDREF and IDREFS.
 */
export const VEC_REFERENCES: ReadonlySet<string> = new Set(
  `A AccessoryPart AllowedInserts AlternativeOccurrence AlternativePartVersions Anode ApplicationConstraint
   AppliesTo AssignedSegment AssociatedAssignmentGroups AssociatedWireEnds B BaseInclusion BaseUnit
   CableDuctSpecification CableLeadThrough CableLeadThroughSpecification CableTieSpecification CartesianPoint
   CartesianPoint3D Cathode Cavity CavityAccessory CavityAccessorySpecification CavityPlugSpecification
   CavitySealSpecification CavitySpecification CompletionComponents ComponentConnector ComponentNode ComponentPort
   ConductorSpecification ConfigInfo ConnectedComponentPort ConnectedPins Connection ConnectionEnd ConnectionGroup
   ConnectorHousingCapSpecification ConnectorHousingCoverSpecification ConnectorHousingSpecification
   ConnectorSegmentConnectionPoint ConstrainedElements ConstrainedParts ContactPoint ContactedWireReception
   ContainedGroups Contract ControlPoint CopyrightInformation DescribedPart DimensionAnchor
   EEComponentSpecification EndNode EquippedCavityRef ExtensionSlot ExtractionTool Factors FerriteSpecification
   FillerSpecification FirstCavity FirstConnector FirstSlot FirstTerminal FirstTerminalReception FirstTerminalRole
   FixingSpecification From FromNode FuseSpecification GrommetSpecification HousingComponent HousingSpecification
   InBillOfMaterial InnerNode InnerSegment InnerTopolgy InstanciatedOccurrence InstanciatedUsage InstantiatedNode
   InstantiatedSegment InsulationSpecification IntegratedTerminalSpecification IsOnTopOf Item LabelingSpecification
   MachineCrimpTool MandatorySegment ManualCrimpTool MappedDocument MappedElement MeasurementPoint ModuleInFamily
   ModuleInList MountedCavitySeal MountedTerminal Net NetType NetworkNode NetworkPort OccurrenceOrUsage
   OpenCavities Origin OuterTopology Part PartOrUsageRelatedSpecification PartStructureSpecification
   PartSubstitution PinComponent PinComponentReference PinSpecification Pins PlaceableElementSpecification
   PlacedElement PlacedPlacementPoints PlacementPoint PluggedCavityRef PredecessorVersion Project ReachableCavities
   RealizedPartUsage RealizedUsageNode RecommendedConductorSpecification RecommendedInsulationSpecification
   ReferenceAnchor ReferenceElement ReferenceNode ReferenceSegment Referenced2DBuildingBlock
   Referenced3DBuildingBlock ReferencedCavity ReferencedCoreSpecification ReferencedDocument
   ReferencedExternalDocuments ReferencedNode ReferencedPart ReferencedSegment ReferencedSheetOrChapter
   ReferencedSlot ReferencedWireElement ReferencedWireEnd RelatedDocument RelatedDocumentVersion
   RelatedSheetOrChapter RelatedWireElementReference RelatedWireProtections ReplacedPlug RepresentedElement
   RoutedElement SealedCavities SecondCavity SecondConnector SecondSlot SecondTerminal SecondTerminalReception
   SecondTerminalRole Segment Signal Slot SlotSpecification Specification StandardCopyrightInformation StartNode
   SubComponent SubWireElementSpecification SuccessorVersion SupplementaryParts SwitchedConnections
   TerminalReception TerminalReceptionReference TerminalReceptionSpecification TerminalSpecification To ToNode
   TopologySpecification TopologyZone UnitComponent UsageNode UsedInProject UsedInserts UsedPlugs UsedSeals
   UsedSupplementaryParts ValidVersions VariantCode WireElementSpecification WireEndAccessory
   WireEndAccessorySpecification WireGroupSpecification WireProtectionSpecification WireReception
   WireReceptionSpecification WireSpecification WireTupleRequirements WireTupleSpecification`.split(/\s+/u),
);
