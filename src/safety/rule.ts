import type { Component, NetKind, State } from "../model/index.ts";
import type { Meter, Method, PlaceKind } from "./method.ts";

/** A kind of danger a zone or segment may have. */
export type HazardKind =
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
export type StateCondition = State["conditions"][number];

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
  readonly half?: "harness" | "device";
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
  readonly half?: "harness" | "device" | undefined;
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
