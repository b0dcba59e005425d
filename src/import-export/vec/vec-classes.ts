import { classNames } from "../xml/source-facts.ts";

/**
 * Classes of the elements of VEC that have another name than their class: the class, then its elements, those with the class of the
 * element around them before a slash only in that one. An attribute `xsi:type` goes before.
 *
 * Source: the VEC schemas 1.2.2 and 2.1.0.
 */
export const VEC_CLASSES = classNames(`
  AbstractLocalizedString: Description
  AbstractSlot: Slot
  AbstractSlotReference: SlotReference
  AliasIdentification: AliasId
  BoundingBox: GeneralTechnicalPartSpecification/BoundingBox
  BuildingBlockPositioning2D: BuildingBlockPositionings
  BuildingBlockPositioning3D: HarnessGeometrySpecification3D/BuildingBlockPositionings
  CableDuctOutlet: Outlet
  CableLeadThroughOutlet: CableLeadThrough/Outlet
  CartesianDimension: BoundingBox
  CartesianPoint2D: CartesianPoint CenterPoint
  CartesianPoint3D: BuildingBlockSpecification3D/CartesianPoint LocalGeometrySpecification/CartesianPoint InsertionPosition
  CartesianVector2D: EndVector StartVector
  CartesianVector3D: GeometrySegment3D/EndVector InsertionVector GeometrySegment3D/StartVector Tangent
  CavityAddOn: CavityAddOns
  CavityPositionDetail: PositionDetail
  Color: BaseColor ColorInformation FirstIdentificationColor LabelIdentificationColor SecondIdentificationColor
  ComponentNode: ChildNode
  ComponentNodeViewItem: PlacedNodeViewItems
  ComponentPortViewItem: DisplayedPort
  ConductorCurrentInformation: ConductorSpecification/CurrentInformation CoreSpecification/CurrentInformation
    FlatCoreSpecification/CurrentInformation ShieldSpecification/CurrentInformation
  ConductorMaterial: ValidConductorMaterials
  ConnectionGroup: SubGroup
  ConnectionNodeViewItem: PlacedViewItems
  CoreCrimpDetail: CoreCrimpDetails
  Curve3D: Curve
  ExtensionSlot: ExtensionSlots
  ExtensionSlotReference: ExtensionSlotRef
  ExternalMapping: Mappings
  FittingOutlet: FittingSpecification/Outlet
  FunctionalRequirement: FunctionalRequirements
  FunctionalStructureNode: ChildNodes RootNode
  FuseComponent: FuseComponents
  GeometryNode2D: GeometryNode
  GeometryNode3D: BuildingBlockSpecification3D/GeometryNode
  GeometrySegment2D: GeometrySegment
  GeometrySegment3D: BuildingBlockSpecification3D/GeometrySegment
  HousingComponentReference: HousingComponentRef
  Instruction: InstallationInstruction ProcessingInstruction
  InsulationCrimpDetail: InsulationCrimpDetails
  InternalComponentConnection: Connections
  LocalPosition: Positions
  LocalizedString: Abbreviation CopyrightNote Color/Description DocumentClassification/Description Material/Description
    RequirementsConformanceStatement/Description RobustnessProperties/Description TextBasedInstruction/InstallationInstruction
    PreferredUseCase TopologyNode/ProcessingInstruction TopologySegment/ProcessingInstruction SpecialRoutedComment
    LocalizedStringProperty/Value
  Location: DefinedLocations EndLocation FirstLocation MappedPosition SecondLocation StartLocation
  Material: Adhesive Backing MaterialInformation PlatingMaterial Resin
  ModularSlotAddOn: ModularSlotAddOns
  ModuleList: ModuleListConfiguration
  NURBSControlPoint: ControlPoint
  NetworkNodeViewItem: NetViewSpecification/PlacedViewItems
  NetworkPort: Port
  NetworkPortViewItem: NetworkNodeViewItem/DisplayedPort
  NumericalValue: Angle Area Attenuation AverageWireLengthAddOn BendRadius BoltDiameter BoltHeight BreakDownVoltage Capacity
    CavitySealingLength CavitySealingOffset CoilCoreDiameter ConductorCrimpLegHeight ConductorCrimpLength ConnectionALength
    ConnectionBLength ContactRangeLength ContactResistance CoreCrossSectionArea CorrugationGradient CorrugationHeight
    CorrugationWidth CrimpConnectionLength CrossSectionArea Current CurveRadius CutBackLength CutOffTabLength DataRate Diameter
    EnvironmentTemperature FMax FMin FixationOffset Frequency FrontBellMouthLength GridSpacing GridX GridY Hardness Height
    HoleDepth HoleDiameter I ICool IMax IMaxTotal Impedance InnerDiameter InsertionDepth InsideDiameter InsulationCrimpLegHeight
    InsulationCrimpLength InsulationDisplacementLength Length LengthOfTwist LengthValue MatingForce MaxCurrent
    MaxSegmentOutsideDiameter MaxWireElementOutsideDiameter MaximumInsertionForce MaximumLongitudinalShrinkage
    MaximumUntwistDualSided MaximumUntwistSingleSided MinBendRadiusDynamic MinBendRadiusStatic MinSegmentOutsideDiameter
    MinWireElementOutsideDiameter NominalSize NominalVoltage NumberOfStrands Offset OpticalTissueDensity OuterDiameter
    OutsideDiameter OutsideDimension OverallLength PermittedUntwist ProtectionLength PullOffForce PullOutForce RearBellMouthLength
    Resistance Rotation SheetThickness StrandDiameter StrippingLength TapeOverlap TensioningStrength TestingPullOutForce Thickness
    ThresholdVoltage Time U UMax UnmatingForce Value Voltage ConductorSpecification/VoltageRange CoreSpecification/VoltageRange
    FlatCoreSpecification/VoltageRange ShieldSpecification/VoltageRange VoltageRating WallThickness WaterAbsorbtion Width
    WireAddOn X Y Z
  OccurrenceOrUsageViewItem2D: PlacedElementViewItem
  OccurrenceOrUsageViewItem3D: PlacedElementViewItem3D
  OpenCavitiesAssignment: MultiCavitySealSpecification/Assignment
  PartOccurrence: Component
  PartRelation: FixationAccessory
  Path: SegmentMapping/MappedPosition RestrictedPath
  Person: Approver Creator Permitter ResponsibleDesigner
  PinComponentBehavior: Behaviour
  PinComponentReference: PinComponentRef
  PinCurrentInformation: PinComponentBehavior/CurrentInformation
  PinOpticalInformation: OpticalInformation
  PinTiming: Timing
  PinVoltageInformation: VoltageInformation
  ProtectionMaterialLength: MaterialLength
  RequirementsConformanceStatement: ConformanceStatement
  RobustnessProperties: RequiredRobustnessProperties
  SealedCavitiesAssignment: Assignment
  SegmentConnectionPointHC: HousingComponent/SegmentConnectionPoint
  SegmentCrossSectionArea: CrossSectionAreaInformation
  SegmentLength: LengthInformation
  SignalGraphEdge: Edge
  SignalGraphNode: Node
  Size: CavityDimension CoreCrimpSize InsulationCrimpSize SealingDimension SheetSize
  SwitchingState: States
  TemperatureInformation: AmbientTemperature
  TerminalCurrentInformation: CurrentInformation
  TerminalDistanceInformation: MinimumDistance
  TerminalRole: IntegratedTerminalRole
  TerminalType: CompatibleTerminalType
  Tolerance: ToleranceIndication
  TopologyZone: SubZone Zone
  Transformation2D: Orientation
  Transformation3D: BoundingBoxPositioning OccurrenceOrUsageViewItem3D/Orientation Positioning
  UsageConstraint: PartUsageConstraint
  UsageNode: SubUsageNodes UsageNodes
  ValueRange: WireReceptionSpecification/CoreCrossSectionArea CurrentRange DimensionValueRange EdgeThickness PlateThickness
    SegmentDiameter TemperatureRange ValueRangeProperty/Value VoltageRange WireElementOutsideDiameter WireTipProtrusion
  ValueWithUnit: Gradient
  VariantStructureNode: VariantStructureNode/ChildNodes VariantStructureSpecification/RootNode
  WireElement: SubWireElement
  WireGrouping: ContainedWireGroupings
  WireReceptionAddOn: AddOns
  WireType: Type
  ZoneAssignment: TopologyZone/Assignment
  ZoneCoverage: Coverage
`);

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
