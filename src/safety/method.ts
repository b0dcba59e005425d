import type { Permit } from "../model/index.ts";

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
export type Meter = "volts" | "ohms" | "clamp" | "test-lamp";

/** How gentle a method is, P0 the gentlest: no contact, made to be touched, adapter in line, opened connector, exposed screw. */
export type ProbeClass = "P0" | "P1" | "P2" | "P3" | "P4";

/** What a method is laid on. `fuse` is one side of a fitted fuse, `inner` a point inside a component, `open-end`
 * where the data does not say how a wire goes on. */
export type PlaceKind = "contact" | "stud" | "splice" | "inner" | "open-end" | "wire" | "fuse";

/** What is fixed about a method. */
export interface MethodTraits {
  /** Its class; none for what is never offered. */
  readonly class?: ProbeClass;
  readonly meters: readonly Meter[];
  readonly places: readonly PlaceKind[];
  /** What the connector of the document must permit. */
  readonly permits: readonly Permit[];
  /** Whether it is fitted beforehand, so that no hand is near while the reading is taken. */
  readonly isFittedBefore: boolean;
}

const CONTACT_METERS: readonly Meter[] = ["volts", "ohms", "test-lamp"];
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
