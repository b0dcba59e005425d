import type { Circuit } from "./circuit.ts";
import { isElectronics, isUnitLoad, type Part, type Setting } from "./parts.ts";
import { AT_REST, describe, sameStanding, type SourceWay, type Standing, type UnitWay } from "./standing.ts";

// What moves once currents flow: relays, control units, regulators, the battery, fuses.

/** Times a fuse's rating at which it burns through while the meter is being read. Common practice, no source. */
const BLOW_SHARE = 2;
/** Volts of a rail against battery minus at which electronics conduct as what they are, and below which they are asleep. */
const [LIFE_VOLT, DEATH_VOLT] = [2, 1];
/** Rounds after which nothing settles any more. */
const MOST_ROUNDS = 60;

/** Volts of points, 0 where a point has no part. */
export type VoltsOf = (point: string) => number;

/** Solves a circuit. */
export type Solver = (circuit: Circuit) => VoltsOf;

function sourceWay(part: Part, volts: VoltsOf, was: SourceWay, way: Setting): SourceWay {
  const { key, element, from, to } = part;
  const across = volts(from) - volts(to);
  const [fault] = way.book.ofKind("source").filter(({ of }) => of === key);
  const emf = fault?.emf ?? element.voltageVolt ?? 0;
  if (element.role === "battery") {
    if (across < emf) return "gives";
    return element.whenCharging !== undefined && across > element.whenCharging.voltageVolt ? "charges" : "rests";
  }
  if (across > emf * (1 + 1e-9)) return "shut";
  if (element.foldBack === undefined) return "gives";
  const { limitAmpere, resistanceOhm } = element.foldBack;
  const ownOhm = element.resistanceOhm ?? 0;
  if (was !== "folds back") return (emf - across) / ownOhm > limitAmpere ? "folds back" : "gives";
  const load = across / Math.max(1e-12, (emf - across) / resistanceOhm);
  return emf / (load + ownOhm) > limitAmpere ? "folds back" : "gives";
}

/** How everything stands after a look at the currents, one step on. */
export function stepOn(parts: readonly Part[], volts: VoltsOf, way: Setting): Standing {
  const { standing, book } = way;
  const across = ({ from, to }: Part): number => volts(from) - volts(to);
  const pulledIn = new Set<string>();
  const units = new Map<string, UnitWay>();
  const ready = new Set<string>();
  const sources = new Map<string, SourceWay>();
  const alive = new Set<string>();
  const blown = new Set(standing.blown);
  const inputs = new Map(
    parts.filter(({ element }) => element.id === "ign-input").map((part) => [part.component.id, part]),
  );
  for (const part of parts) {
    const { key, element, component } = part;
    if (element.kind === "coil" && element.pullInVolt !== undefined && !book.isOpen(key)) {
      const ampere = Math.abs(across(part)) / book.ohm(key, element.resistanceOhm ?? 0);
      const [pullIn, dropOut] = [element.pullInVolt, element.dropOutVolt ?? 0].map(
        (v) => v / (element.resistanceOhm ?? 1),
      );
      if (ampere >= (pullIn ?? 0) || (standing.pulledIn.has(key) && ampere >= (dropOut ?? 0))) pulledIn.add(key);
    }
    if (element.kind === "fuse" && element.ratedAmpere !== undefined && !blown.has(key) && !book.isOpen(key)) {
      const ampere = Math.abs(across(part)) / book.ohm(key, element.resistanceOhm ?? 1);
      if (ampere > BLOW_SHARE * element.ratedAmpere) blown.add(key);
    }
    if (element.kind === "source") sources.set(key, sourceWay(part, volts, standing.sources.get(key) ?? "gives", way));
    const highest = Math.max(volts(part.from), volts(part.to));
    if (isElectronics(part) && !isUnitLoad(part) && highest > (standing.alive.has(key) ? DEATH_VOLT : LIFE_VOLT))
      alive.add(key);
    if (component.needs !== undefined && isUnitLoad(part)) {
      const least = component.needs.leastVolt;
      const input = inputs.get(component.id);
      const ignition = input !== undefined && volts(input.from) - volts(input.to) >= least && !book.isOpen(input.key);
      if (ignition) ready.add(component.id);
      const fed = across(part) >= least;
      const was = standing.units.get(component.id) ?? "asleep";
      units.set(
        component.id,
        !ignition ? "asleep" : fed ? (was === "starved" ? was : "awake") : was === "awake" ? "starved" : was,
      );
    }
  }
  return { pulledIn, units, ready, sources, alive, blown };
}

/** A machine that has come to rest: how it stands and the volts of its points. */
export interface Settled {
  readonly standing: Standing;
  readonly volts: VoltsOf;
}

/** Lets a machine come to rest, from where it stands. What goes round in a circle is left where it was first met again. */
export function settle(
  parts: readonly Part[],
  build: (standing: Standing) => { readonly circuit: Circuit; readonly way: Setting },
  solve: Solver,
  from: Standing = AT_REST,
): Settled {
  let standing = from;
  const seen = new Set<string>();
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const { circuit, way } = build(standing);
    const volts = solve(circuit);
    const next = stepOn(parts, volts, way);
    if (sameStanding(next, standing) || seen.has(describe(next))) return { standing, volts };
    seen.add(describe(next));
    standing = next;
  }
  throw new Error("The machine does not come to rest");
}

/** Contacts that are in because their coil has pulled, by key. */
export function relaysIn(parts: readonly Part[], way: Setting): readonly string[] {
  return parts
    .filter(
      ({ element, component }) =>
        element.kind === "contact" && way.standing.pulledIn.has(`${component.id}.${element.of ?? ""}`),
    )
    .map(({ key }) => key)
    .sort();
}
