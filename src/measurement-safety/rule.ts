import type { Component, NetKind, Permit, State } from "../harness-model/index.ts";

/** A kind of danger a zone or segment may have. */
type HazardKind =
  | "rotating"
  | "crush"
  | "hot"
  | "boosted-voltage"
  | "fuel"
  | "oil"
  | "wet"
  | "flexing"
  | "chafe"
  | "corrosive"
  | "step"
  | "other";

/** A condition of a machine state. */
type StateCondition = State["conditions"][number];

/**
 * The words a rule may use. All words given must hold; of a list, one. This is the whole vocabulary: a new word needs a line here, a
 * line in {@link ContactFacts} and a line in the evaluator.
 */
export interface When {
  /** What the method is laid on. */
  readonly place?: readonly PlaceKind[];
  /** The method does not belong on such a place. */
  readonly isWrongPlace?: true;
  /** Which half of a connector; every half that wires end in counts as harness. */
  readonly side?: "harness" | "device";
  readonly isSealed?: boolean;
  /** Kind of the component that the connector, stud or fuse belongs to; one that is not known may be of any kind. */
  readonly componentKind?: readonly Component["kind"][];
  /** The line has a label of one of these kinds. */
  readonly netKind?: readonly NetKind[];
  /** The line has a label of another kind, or none at all. */
  readonly netKindOutside?: readonly NetKind[];
  /** The line is driven above system voltage in the state asked about. */
  readonly isBoostedNow?: true;
  /** The line stays on the battery although the machine is isolated. */
  readonly isOnBattery?: true;
  /** Another line of the same connector is of one of these kinds. */
  readonly connectorCarries?: readonly NetKind[];
  /** A line of the same connector is driven above system voltage in the state asked about. */
  readonly isConnectorBoostedNow?: true;
  /** In this state something turns, cranks or is driven above system voltage somewhere on the machine, or that is not known. */
  readonly isMachineBusy?: true;
  /** It is not known where the place is or what its dangers are, and the machine is not at rest. */
  readonly isPlaceUnknown?: true;
  /** Nothing at all tells what the line is for, and the machine has airbag or high-voltage lines. */
  readonly isUnknownBesideGuarded?: true;
  /** It is not known what the line is for, and the machine is not at rest. */
  readonly isUnknownNow?: true;
  /** The state has none of these conditions. */
  readonly stateLacks?: readonly StateCondition[];
  /** A danger of the place that holds in the state asked about. */
  readonly hazard?: readonly HazardKind[];
  /** The same, but only one that other states are free of, or any that holds while the machine is not at rest. */
  readonly hazardOfState?: readonly HazardKind[];
  /** The document does not say that the method is permitted at the connector. */
  readonly isPermitMissing?: true;
  /** The document lists no adapter for this method here. */
  readonly isAdapterMissing?: true;
  /** The document says in which states the place can be reached, and this is not one of them; or it does not say so. */
  readonly isOutOfReach?: true;
  readonly isTerminalSizeUnknown?: true;
}

/** One row of the table: what is refused, when, why, and where the rule comes from. It refuses methods, or meters with any method. */
export interface Rule {
  readonly id: string;
  readonly methods?: readonly Method[];
  readonly meters?: readonly Meter[];
  readonly when: When;
  readonly reason: string;
  readonly source: string;
}

/** All that a rule may ask about one way of taking a reading at one place in one state. */
export interface ContactFacts {
  readonly method: Method;
  readonly place: PlaceKind;
  readonly side?: "harness" | "device" | undefined;
  readonly isSealed?: boolean | undefined;
  readonly componentKind?: Component["kind"] | "not-known" | undefined;
  readonly netKinds: ReadonlySet<NetKind>;
  readonly isBoostedNow: boolean;
  readonly isOnBattery: boolean;
  readonly connectorCarries: ReadonlySet<NetKind>;
  readonly isConnectorBoostedNow: boolean;
  readonly conditions: readonly StateCondition[];
  readonly isAtRest: boolean;
  readonly isMachineBusy: boolean;
  readonly isPlaceUnknown: boolean;
  readonly isUnknownBesideGuarded: boolean;
  readonly isUnknownNow: boolean;
  /** Dangers of the place that hold in the state; `isOfState` if other states are free of it. */
  readonly hazards: readonly { readonly kind: HazardKind; readonly isOfState: boolean }[];
  readonly isPermitMissing: boolean;
  readonly isAdapterMissing: boolean;
  readonly isOutOfReach: boolean;
  readonly isTerminalSizeUnknown: boolean;
}

/**
 * How a reading is taken. The last three are what people are tempted by; they are listed so that they can be refused with a reason.
 *
 * - `clamp`: current clamp round one wire; `tip`: meter tip on bare metal made to be touched; `clip`: a lead clipped on there beforehand,
 *   read with the hands away; `fuse-window`: tip on the test window of a fitted fuse;
 * - `mating-adapter`, `in-line`, `relay-extension`: through an adapter of the document;
 * - `front-probe`: connector opened, terminal adapter of the cavity's size from the mating side; `screw`: tip on a screw head or nut;
 * - `back-probe`: in from the wire side; `pierce`: through insulation or into a splice; `tip-in-socket`: meter tip into a cavity.
 */
export type Method =
  | "clamp"
  | "tip"
  | "clip"
  | "fuse-window"
  | "mating-adapter"
  | "in-line"
  | "relay-extension"
  | "front-probe"
  | "screw"
  | "back-probe"
  | "pierce"
  | "tip-in-socket";

/** What is connected or put round: voltmeter, ohmmeter, current clamp, test lamp. */
export type Meter = "dc-voltage" | "resistance" | "clamp" | "test-lamp";

/** How gentle a method is, P0 the gentlest: no contact, made to be touched, adapter in line, opened connector, exposed screw. */
export type ProbeClass = "P0" | "P1" | "P2" | "P3" | "P4";

/** What a method is laid on. `fuse` is one side of a fitted fuse, `inner` a point inside a component, `open-end`
 * where the data does not say how a wire goes on. */
export type PlaceKind = "contact" | "stud" | "splice" | "inner" | "open-end" | "wire" | "fuse";

/** What is fixed about a method. */
interface MethodTraits {
  /** Its class; none for what is never offered. */
  readonly class?: ProbeClass;
  readonly meters: readonly Meter[];
  readonly places: readonly PlaceKind[];
  /** What the connector of the document must permit. */
  readonly permits: readonly Permit[];
  /** Whether it is fitted beforehand, so that no hand is near while the reading is taken. */
  readonly isFittedBefore: boolean;
}

const CONTACT_METERS: readonly Meter[] = ["dc-voltage", "resistance", "test-lamp"];
const BY_HAND = { meters: CONTACT_METERS, permits: [], isFittedBefore: false } as const;
const FITTED = { meters: CONTACT_METERS, permits: [], isFittedBefore: true } as const;

/** The traits of every method. */
export const METHODS: { readonly [Name in Method]: MethodTraits } = {
  clamp: { ...BY_HAND, class: "P0", meters: ["clamp"], places: ["wire"] },
  tip: { ...BY_HAND, class: "P1", places: ["stud"] },
  clip: { ...FITTED, class: "P1", places: ["stud"] },
  "fuse-window": { ...BY_HAND, class: "P1", places: ["fuse"] },
  "mating-adapter": { ...FITTED, class: "P1", places: ["contact"], permits: ["mating-adapter"] },
  "in-line": { ...FITTED, class: "P2", places: ["contact"], permits: ["adapter"] },
  "relay-extension": { ...FITTED, class: "P2", places: ["contact"] },
  "front-probe": { ...BY_HAND, class: "P3", places: ["contact"], permits: ["unplug", "front-probe"] },
  screw: { ...BY_HAND, class: "P4", places: ["contact"], permits: ["screw"] },
  "back-probe": { ...BY_HAND, places: ["contact"] },
  pierce: { ...BY_HAND, places: ["wire", "splice"] },
  "tip-in-socket": { ...BY_HAND, places: ["contact"] },
};
