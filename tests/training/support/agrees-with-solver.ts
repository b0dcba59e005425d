import { drivenAmpere, readMeter, solveCircuit, type Fault, type OperatingPoint } from "ohmward/simulation";
import type { Harness, HarnessDocument } from "ohmward/harness-model";
import type { ReadyExercise } from "ohmward/training";
import { findNet, resolve } from "ohmward/connectivity";

/** One state with the machine whole and with the hidden fault. */
interface Both {
  readonly harness: Harness;
  readonly normal: OperatingPoint;
  readonly now: OperatingPoint;
}

/** Volts by which a point has to stand otherwise to count. */
const MOVED_VOLT = 3;
/** The same for the line of a code, where a sensor signal is all there is. */
const LINE_VOLT = 0.05;
const HARD: ReadonlySet<string> = new Set(["voltage-high", "voltage-low", "open", "short"]);

/**
 * What of a complaint the solver does not bear out, worked out anew from its voltages: a part that is said to fail has a consumer or a line
 * that stands otherwise than in the healthy machine in that very state, or is a control unit that is dead; a code for a high, low, open or
 * shorted line has a line that stands otherwise in some state with the key on, hangs on nothing, or has other ohms between its two ends.
 */
export function disagreements({ harness, task }: ReadyExercise): readonly string[] {
  const { faults } = task.hidden;
  const both = (state: string): Both | undefined => {
    const [normal, now] = [solveCircuit(harness, { state }), solveCircuit(harness, { state, faults })];
    return normal.kind === "settled" && now.kind === "settled" ? { harness, normal, now } : undefined;
  };
  const wrong = task.signs.functions.flatMap(({ component, what, state }) => {
    const found = both(state);
    return found && isFunctionBorneOut(found, component, what) ? [] : [`${component} ${what}`];
  });
  const live = harness.document.states
    .filter(({ conditions }) => conditions.length > 0 && !conditions.includes("battery-disconnected"))
    .flatMap(({ id }) => both(id) ?? []);
  const codes = harness.document.codes.filter(({ id, failure }) => task.signs.codes.includes(id) && HARD.has(failure));
  const unborne = codes.filter(
    ({ points }) =>
      !live.some((each) => points.some((point) => isNetMoved(each, point, LINE_VOLT) || isOutputIdle(each, point))) &&
      !isWayMoved(harness, faults, points),
  );
  return [...wrong, ...unborne.map(({ id }) => id)];
}

/** Whether a driver at the net of a point carries next to nothing of what it carries in the healthy machine. */
function isOutputIdle({ harness, normal, now }: Both, item: string): boolean {
  const found = resolve(harness, item);
  const nodes = found.kind === "one" ? findNet(harness, found.item).nodes : [];
  const ampere = (point: OperatingPoint, key: string): number => {
    const at = point.list.parts.findIndex((part) => part.key === key);
    return Math.abs(drivenAmpere(point, at));
  };
  return normal.list.parts.some(({ group, key }, at) => {
    const ends = [normal.list.shape.from[at] ?? -1, normal.list.shape.to[at] ?? -1];
    if (group !== "driver" || !ends.some((end) => nodes.includes(end))) return false;
    return ampere(normal, key) > 0.01 && ampere(now, key) < 0.1 * ampere(normal, key);
  });
}

function isFunctionBorneOut({ harness, normal, now }: Both, component: string, what: string): boolean {
  const across = harness.edges.flatMap((edge, at) => {
    if (edge.kind !== "element" || edge.component.id !== component) return [];
    const volt = ({ solved }: OperatingPoint): number => {
      const [from, to] = [harness.index.from[at] ?? 0, harness.index.to[at] ?? 0];
      return solved.islands[from] === solved.islands[to]
        ? Math.abs((solved.volts[from] ?? 0) - (solved.volts[to] ?? 0))
        : 0;
    };
    return [{ before: volt(normal), after: volt(now) }];
  });
  const isLess = across.some(({ before, after }) => before > MOVED_VOLT && after < 0.9 * before);
  const isMore = across.some(({ before, after }) => after > before + MOVED_VOLT);
  if (what === "on") return isMore || isNetMoved({ harness, normal, now }, component, MOVED_VOLT);
  if (what === "unseen") return isNetMoved({ harness, normal, now }, component, MOVED_VOLT);
  return isLess || now.modes.units.has(component);
}

/** Whether an ohmmeter between the two points of a code shows something else than in the healthy machine, the battery isolated. */
function isWayMoved(
  harness: Harness,
  faults: readonly Fault[],
  [red, black]: HarnessDocument["codes"][number]["points"],
): boolean {
  const off = harness.document.states.find(({ conditions }) => conditions.includes("battery-disconnected"))?.id;
  if (red === undefined || black === undefined || off === undefined) return false;
  // A control unit looks out from its own half.
  const inside = (point: string): string => point.replace(/:(?=[^:]*$)/u, ".device:");
  const read = (list: readonly Fault[]): number => {
    const probe = { kind: "resistance", red: inside(red), black: inside(black) } as const;
    const reading = readMeter(harness, { operatingConditions: { state: off, faults: list }, probe });
    return reading.kind === "value" ? reading.value : Infinity;
  };
  const [before, after] = [read([]), read(faults)];
  return after < 0.5 * before || after > 2 * before;
}

/** Whether a point of the nets that a thing hangs on stands on another voltage, or on none, unlike in the healthy machine. */
function isNetMoved({ harness, normal, now }: Both, item: string, least: number): boolean {
  const found = resolve(harness, item);
  const nodes = found.kind === "one" ? findNet(harness, found.item).nodes : [];
  return nodes.some((at) => {
    const isTied = ({ solved, list }: OperatingPoint): boolean => solved.islands[at] === solved.islands[list.reference];
    const volt = ({ solved, list }: OperatingPoint): number =>
      (solved.volts[at] ?? 0) - (solved.volts[list.reference] ?? 0);
    if (isTied(normal) !== isTied(now)) return true;
    return isTied(now) && Math.abs(volt(now) - volt(normal)) > least;
  });
}
