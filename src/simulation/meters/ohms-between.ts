import { keptFor } from "../../base/index.ts";
import { isHidden } from "../network/part.ts";
import type { OperatingPoint } from "../network/settle.ts";
import { lookAtValues } from "../solver/reduce-network.ts";
import { ohmBetween, voltsOfUnitCurrent } from "../solver/solve-network.ts";
import { ASLEEP_OHM, LEAST_ASLEEP_OHM } from "../tables/typical-parts.ts";
import { HAND_METER, meterLimit, type MeterSpec } from "./reading.ts";

/** What an ohmmeter finds between two points. */
export type OhmsBetween =
  /** No way from one to the other, not even through electronics. */
  | { readonly kind: "apart" }
  /** The resistance of what is known, and by how much it may be less for what hides beside it. */
  | { readonly kind: "known"; readonly ohm: number; readonly hiddenOhm: number }
  /** It goes through electronics that sleep, which are no resistors: nobody can foretell it. Numbers of those parts, most important first. */
  | { readonly kind: "hidden"; readonly parts: readonly number[] };

/** From all that hides at its typical value to all of it at its least, and to none at all, as shares of what it does to a reading. */
const HIDDEN_RANGE = ASLEEP_OHM / LEAST_ASLEEP_OHM;
/** What hides does less than this share of a reading: as good as nothing. */
const NOTHING_SHARE = 1e-9;

/**
 * The resistance between two points of a dead circuit, as far as known parts settle it: wire, contact, coil, winding, thermistor,
 * terminator, pull resistor. Control units and sensors that sleep hide 10 kohm or more, and are in the way where that changes a reading
 * by more than the meter is off.
 *
 * How much a part takes of what a reading is goes by the square of its share of the current (to first order in what hides).
 *
 * @param pair Nodes of the leads.
 * @param meter The meter whose accuracy counts; a usual hand meter when left out.
 */
export function ohmsBetween(
  operatingPoint: OperatingPoint,
  [red, black]: readonly [number, number],
  meter: MeterSpec = HAND_METER,
): OhmsBetween {
  const { list, solved, values } = operatingPoint;
  if (red === black) return { kind: "known", ohm: 0, hiddenOhm: 0 };
  const ohm = ohmBetween(solved, red, black);
  if (ohm === Infinity) return { kind: "apart" };
  const hidden = hiddenParts(operatingPoint);
  const unitVolts = hidden.length > 0 ? voltsOfUnitCurrent(solved, red, black) : undefined;
  const effects = hidden
    .map((at) => {
      const seen = (unitVolts?.[list.shape.from[at] ?? 0] ?? 0) - (unitVolts?.[list.shape.to[at] ?? 0] ?? 0);
      return { at, ohm: (seen * seen) / (values.ohm[at] ?? Infinity) };
    })
    .filter((each) => each.ohm > NOTHING_SHARE * ohm)
    .toSorted((a, b) => b.ohm - a.ohm);
  const hiddenOhm = HIDDEN_RANGE * effects.reduce((sum, each) => sum + each.ohm, 0);
  if (hiddenOhm > (meterLimit(meter.ohms, ohm)?.limit ?? Infinity)) {
    const parts = effects.filter((each) => each.ohm > LISTED_SHARE * ohm).map(({ at }) => at);
    return { kind: "hidden", parts };
  }
  const open = { ohm: values.ohm.slice(), volt: values.volt };
  for (const { at } of effects) open.ohm[at] = Infinity;
  const seen = lookAtValues(list.shape, open, [red, black]);
  return { kind: "known", ohm: seen.kind === "connected" ? seen.ohm : ohm, hiddenOhm };
}

/** A part that makes less than this share of a reading is not named. */
const LISTED_SHARE = 0.01;

/**
 * Whether known parts settle what an ohmmeter shows between two points of a dead circuit: it is open, or wire, contact, coil, winding,
 * thermistor, terminator and pull resistor make the reading. False where it goes through a control unit or sensor that sleeps.
 *
 * @param red Number of the node at the red lead.
 * @param black Number of the node at the black lead.
 */
export function areOhmsKnown(operatingPoint: OperatingPoint, red: number, black: number): boolean {
  return ohmsBetween(operatingPoint, [red, black]).kind !== "hidden";
}

/** Numbers of the parts that stand for electronics asleep. */
const hiddenParts = keptFor(({ list, values }: OperatingPoint): readonly number[] =>
  [...list.parts.keys()].filter((at) => isHidden(list.parts[at], values.ohm[at])),
);
