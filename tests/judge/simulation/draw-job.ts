import type { WorkshopCase } from "../cases.ts";
import type { HarnessFile } from "../truth/harness-file.ts";
import { TrueMachine } from "../truth/machine.ts";
import type { Ngspice } from "../truth/ngspice.ts";
import type { Fault } from "../truth/fault.ts";
import type { World } from "../truth/wiring.ts";
import { Chance } from "./chance.ts";
import { codesOf } from "./code-table.ts";
import { drawFault, type DrawnFault } from "./draw-fault.ts";

/** A job that a drawn fault begins with. */
export interface DrawnJob {
  readonly drawn: DrawnFault;
  /** As a workshop case; undefined where nobody would notice the fault. */
  readonly job: WorkshopCase | undefined;
  readonly world: World;
}

/** Share of a part's power below which its function is missed. Common practice, no source. */
const MISSED_POWER = 0.7;
const CHARGED_VOLT = 13.3;
const [MOST_CODES, MOST_BAD, MOST_GOOD] = [6, 3, 2];

/** What a driver notices of a machine, each by what does the work. */
const FUNCTIONS: readonly (readonly [string, string, string])[] = [
  ["M1", "CRANK", "M1.motor"],
  ["M2", "PRIME", "M2.motor"],
  ["R1", "HEAT", "R1.element-1"],
];

/** A machine as it left the works and as it has aged: wires, joints, parts and battery a little off. Common practice, no source. */
function drawWorld(chance: Chance): { readonly world: World; readonly battery: Fault } {
  const seed = Math.floor(chance.share() * 2 ** 31);
  const factors = new Map<string, number>();
  const world: World = (key) => {
    const kept = factors.get(key);
    if (kept !== undefined) return kept;
    let mixed = seed;
    for (const letter of key) mixed = Math.imul(mixed ^ letter.charCodeAt(0), 0x01000193);
    const isJoint = key.includes("@") || /:[^:]+$/u.test(key);
    const factor = new Chance(mixed).factor(isJoint ? 0.4 : /^[CW]\d/u.test(key) ? 0.04 : 0.05);
    factors.set(key, factor);
    return factor;
  };
  const emf = 12.45 + 0.35 * chance.share();
  return { world, battery: { kind: "source", of: "G2.cells", emf, ohm: 0.005 + 0.004 * chance.share() } };
}

/** What jobs are drawn from: the document, the simulator, and the machine as it is in the document. */
interface Makings {
  readonly machine: HarnessFile;
  readonly ngspice: Ngspice;
  readonly sound: (build: string) => TrueMachine;
}

/** Draws a job by its number: the same number gives the same job. */
export function drawJob({ machine, ngspice, sound }: Makings, number: number): DrawnJob {
  const chance = new Chance(number);
  const build = "base";
  const drawn = drawFault(machine, machine.builds.find(({ id }) => id === build)?.options ?? [], chance);
  const { world, battery } = drawWorld(chance);
  const own = drawn.faults.some((fault) => fault.kind === "source" && fault.of === "G2.cells") ? [] : [battery];
  const faults = [...drawn.faults, ...own];
  const truth = new TrueMachine(machine, { build, faults, world }, ngspice);
  const signs = signsOf(truth, sound(build));
  if (signs.codes.length === 0 && signs.bad.length === 0) return { drawn, job: undefined, world };
  const at = ({ at: places, share }: DrawnFault["look"]): readonly string[] => (chance.share() < share ? places : []);
  const burnt = truth.blown();
  const job: WorkshopCase = {
    ...{ id: `S${String(number)}`, build, complaint: "drawn", ...signs, fault: drawn.sort, faults },
    extra: drawn.isIntermittent ? ["--shows", "comes-and-goes"] : [],
    ...{ intermittent: drawn.isIntermittent, faultless: [battery] },
    ...{ look: [...at(drawn.look), ...burnt], wiggle: at(drawn.move), loose: at(drawn.pull) },
    exchangeCures: chance.share() < 0.97 ? drawn.exchange : [],
    ...{ repairs: drawn.repairs, allOf: [], noElectricalFault: false, maxChecks: 60, maxMinutes: 600 },
    ...{ readings: [], panel: {}, panelHealthy: {} },
  };
  return { drawn, job, world };
}

/** Codes that are read, functions that are missed and some that are not. */
function signsOf(truth: TrueMachine, sound: TrueMachine): Pick<WorkshopCase, "codes" | "bad" | "good"> {
  const codes = codesOf(truth).slice(0, MOST_CODES);
  const works = FUNCTIONS.map(([name, state, key]) => {
    const isGood = truth.watts(state, key) > MISSED_POWER * sound.watts(state, key);
    return [name, isGood] as const;
  });
  const isRunning = works.some(([name, isGood]) => name === "M1" && isGood);
  if (isRunning) works.push(["G1", truth.voltsAt("RUN", "G2+") > CHARGED_VOLT]);
  const awake = truth.awake("KOEO");
  for (const unit of ["A1", "A2"]) works.push([unit, awake.includes(unit)]);
  const bad = works.filter(([, isGood]) => !isGood).map(([name]) => name);
  const good = works.filter(([, isGood]) => isGood).map(([name]) => name);
  return { codes, bad: bad.slice(0, MOST_BAD), good: good.toReversed().slice(0, MOST_GOOD) };
}
