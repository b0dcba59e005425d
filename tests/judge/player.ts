import type { WorkshopCase } from "./cases.ts";
import { ImpliedReadings } from "./implied-readings.ts";
import { ohmsShown, voltsShown } from "./meter-display.ts";
import { judgeOhms } from "./ohms-judged.ts";
import { PlannerJob, type AskedCheck, type AskedEnd, type Said } from "./planner.ts";
import type { HarnessFile } from "./truth/harness-file.ts";
import { TrueMachine, type MeterSetting } from "./truth/machine.ts";
import type { Ngspice } from "./truth/ngspice.ts";
import type { World } from "./truth/wiring.ts";

/** More checks than anybody would do on one complaint before asking for help. */
export const MOST_CHECKS = 60;

/** One check as it was played. */
export interface PlayedCheck {
  readonly title: string;
  readonly how: AskedCheck["how"];
  readonly state: string;
  readonly answer: string;
  /** Ohms that tell nothing, and why; absent where the check is fair. */
  readonly badOhms?: string;
  /** A copy or a sum of earlier readings. */
  readonly isImplied: boolean;
  readonly isAgain: boolean;
  /** The first suspects before the check, with their probability. */
  readonly believed: string;
}

/** A job as it was played. */
export interface Played {
  readonly checks: readonly PlayedCheck[];
  /** Undefined where no end was reached. */
  readonly end: AskedEnd | undefined;
  readonly minutes: number;
  readonly suspects: readonly string[];
  readonly shares: readonly number[];
  /** Readings that were not taken as a meter shows them. */
  readonly askedBack: number;
  /** What was named after the first repair, where a second fault was left. */
  readonly secondEnd?: AskedEnd | undefined;
}

/** What the player has at hand: the machine's document, the simulator, and sound machines by build. */
export class Bench {
  readonly machine: HarnessFile;
  readonly ngspice: Ngspice;
  readonly #sound = new Map<string, TrueMachine>();

  constructor(machine: HarnessFile, ngspice: Ngspice) {
    this.machine = machine;
    this.ngspice = ngspice;
  }

  /** The machine without a fault. */
  sound(build: string): TrueMachine {
    const kept = this.#sound.get(build) ?? new TrueMachine(this.machine, { build, faults: [] }, this.ngspice);
    this.#sound.set(build, kept);
    return kept;
  }
}

/** What a drawn job has besides its fault. */
export interface Circumstances {
  /** How the machine differs from its document without being at fault. */
  readonly world?: World;
  /** Whether the next answer is a wrong one: another cavity, the wrong stud, a look judged the other way round. */
  readonly slips?: () => boolean;
}

/** Studs that a lead may land on by mistake. */
const WRONG_STUDS = ["G2+", "GND-C1", "M1.30", "GND-E1"] as const;

/** The machine of a case as somebody at it finds it. */
class Shop {
  readonly #bench: Bench;
  readonly #case: WorkshopCase;
  readonly #truth: TrueMachine;
  readonly #slips: () => boolean;

  constructor(bench: Bench, each: WorkshopCase, { world, slips = () => false }: Circumstances) {
    this.#bench = bench;
    this.#case = each;
    this.#slips = slips;
    // What comes and goes is away while a meter is being read.
    const faults = each.intermittent ? (each.faultless ?? []) : each.faults;
    this.#truth =
      faults.length === 0 && world === undefined
        ? bench.sound(each.build)
        : new TrueMachine(bench.machine, { build: each.build, faults, world }, bench.ngspice);
  }

  /** What a person types after a check; undefined where it cannot be done. */
  answer(check: AskedCheck): string | undefined {
    const { look, wiggle, loose, exchangeCures } = this.#case;
    const isSlip = this.#slips();
    if (check.how === "volts" || check.how === "ohms") {
      const setting = settingOf(check, check.how);
      const reading = this.#truth.read(isSlip ? this.#misplaced(setting) : setting);
      if (reading === "powered") return undefined;
      if (reading === "over range") return "over range";
      return check.how === "volts" ? voltsShown(reading) : ohmsShown(reading);
    }
    const places = { look, move: wiggle, pull: loose, exchange: exchangeCures }[check.how];
    return places.includes(check.at) === isSlip ? check.sound : check.faulty;
  }

  /** The red lead one cavity further, or on the wrong stud. */
  #misplaced(setting: MeterSetting): MeterSetting {
    const { red, black } = setting;
    const cut = red.lastIndexOf(":");
    const cavity = Number(red.slice(cut + 1));
    if (cut > 0 && Number.isInteger(cavity)) {
      const beside = `${red.slice(0, cut)}:${String(cavity > 1 ? cavity - 1 : cavity + 1)}`;
      if (beside !== black) return { ...setting, red: beside };
    }
    return { ...setting, red: WRONG_STUDS.find((stud) => stud !== red && stud !== black) ?? red };
  }

  /** Connectors that a check has opened and that were not plugged in. */
  foundOff({ unplugged }: AskedCheck): readonly string[] {
    const off = this.#case.faults.flatMap((fault) => (fault.kind === "unplugged" ? [fault.of] : []));
    const halves = new Map(
      this.#bench.machine.connectors.flatMap(({ id, sides: list }) => [
        [id, id] as const,
        ...list.flatMap(({ name }) => (name === undefined ? [] : [[name, id] as const])),
      ]),
    );
    return off.map((name) => halves.get(name) ?? name).filter((id) => unplugged.includes(id));
  }
}

const settingOf = ({ state, red, black, unplugged }: AskedCheck, meter: "volts" | "ohms"): MeterSetting => ({
  ...{ meter, state, red, black, unplugged },
});

/** A job that is being played. */
interface Play {
  readonly job: PlannerJob;
  readonly bench: Bench;
  readonly build: string;
  readonly checks: PlayedCheck[];
  readonly readings: ImpliedReadings;
}

/** Plays a job until the planner ends it, or for 60 checks. */
function playOn({ job, bench, build, checks, readings }: Play, shop: Shop): Said {
  const told = new Set<string>();
  for (;;) {
    const said = job.next();
    if (said.check === undefined || checks.length >= MOST_CHECKS) return said;
    const { check } = said;
    const off = shop.foundOff(check).find((id) => !told.has(id));
    if (off !== undefined && check.how !== "look" && job.sawUnplugged(off)) {
      told.add(off);
      checks.push({
        title: `Look at ${off}`,
        how: "look",
        state: check.state,
        answer: "not plugged in",
        isImplied: false,
        isAgain: false,
        believed: believedIn(said),
      });
      continue;
    }
    const isMeter = check.how === "volts" || check.how === "ohms";
    const setting = isMeter ? settingOf(check, check.how) : undefined;
    const answer = shop.answer(check);
    if (answer === undefined) job.skip(check.code, "there are volts at the leads");
    else job.give(check.code, answer, isMeter);
    const judged = setting?.meter === "ohms" ? judgeOhms(bench.sound(build), setting) : "fine";
    checks.push({
      ...{
        title: check.unplugged.length > 0 ? `${check.title} [${check.unplugged.join()} off]` : check.title,
        how: check.how,
        state: check.state,
        answer: answer ?? "cannot be done",
        isAgain: check.isAgain,
        believed: believedIn(said),
      },
      isImplied: setting !== undefined && readings.take(setting) && !check.isAgain,
      ...(judged === "fine" ? {} : { badOhms: judged }),
    });
  }
}

function believedIn({ suspects, shares }: Said): string {
  const first = suspects.slice(0, 4).map((name, at) => `${name} ${((shares[at] ?? 0) * 100).toFixed(0)} %`);
  return first.join(", ");
}

/** The parts of a name that stands for several repairs at once. */
const partsOfName = (name: string): readonly string[] => name.split(" and ");

/** Plays a workshop case from the complaint to the end. */
export function playCase(bench: Bench, each: WorkshopCase, circumstances: Circumstances = {}): Played {
  const job = new PlannerJob(each);
  const shop = new Shop(bench, each, circumstances);
  const play: Play = { job, bench, build: each.build, checks: [], readings: new ImpliedReadings() };
  const { checks } = play;
  const said = playOn(play, shop);
  const played = {
    checks,
    askedBack: job.askedBack,
    end: said.end,
    minutes: said.minutes,
    suspects: said.suspects,
    shares: said.shares,
  };
  const [first] = said.end?.names ?? [];
  const isPart =
    first !== undefined && each.allOf.length > 0 && partsOfName(first).length === 1 && each.repairs.includes(first);
  if (!isPart) return played;
  // One of two faults is mended; the complaint stays and the job goes on with the machine as it is now.
  job.repairedInVain(first);
  const left = each.faults.filter(({ of }) => typeof of !== "string" || !first.endsWith(` ${of}`));
  const shopLeft = new Shop(bench, { ...each, faults: left }, circumstances);
  const after = playOn(play, shopLeft);
  return { ...played, minutes: after.minutes, suspects: after.suspects, shares: after.shares, secondEnd: after.end };
}
