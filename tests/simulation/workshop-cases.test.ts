import { describe, expect, test } from "vitest";
import {
  nodeVolts,
  readMeter,
  solveCircuit,
  type Fault,
  type OperatingConditions,
  type OperatingPoint,
} from "ohmward/simulation";
import { fitDemo, openDemo } from "../demo-harness/open-demo.ts";
import { readCases, type Panel, type WorkshopCase } from "../judge/cases.ts";
import { faultsOf } from "./support/case-faults.ts";
import { pointNumber } from "./support/small-machine.ts";

// Source: the workshop cases. Their readings, volts of points, units awake and relays pulled in were worked out with a circuit model made
// apart from this project and from the judge, on ids, lengths and part figures of the document only.

const document = openDemo();
const builds = new Map(document.builds.map((build) => [String(build.id), fitDemo(document, build.id)]));

/** Within 1 %, or 10 mV (6 mV below 0.6 V), or a twentieth of an ohm. */
function isClose(got: number, want: number, meter: "volts" | "ohms"): boolean {
  const least = meter === "ohms" ? 0.05 : Math.abs(want) < 0.6 ? 0.006 : 0.01;
  return Math.abs(got - want) <= Math.max(0.01 * Math.abs(want), least);
}

/** What nothing holds reads about 0 V and is no ground: the cases print 0 V, this room says that it floats. */
const isFloatingZero = (kind: string, want: number): boolean => kind === "floating" && Math.abs(want) < 0.001;

/** What goes through control units asleep, by case: an ohmmeter of the cases meets some ten kilohm there; here no figure is foretold. */
const HIDDEN: ReadonlySet<string> = new Set(["J49 faulty RT1.X.harness:1 RT1.X.harness:2 RT1.X"]);

/** A machine of a case, with its faults or without. */
class Bench {
  readonly #build: string;
  readonly #faults: readonly Fault[];
  readonly #situations = new Map<string, OperatingConditions>();

  constructor(build: string, faults: readonly Fault[]) {
    this.#build = build;
    this.#faults = faults;
  }

  readings({ id, readings }: WorkshopCase, which: "faulty" | "healthy"): readonly string[] {
    return readings.flatMap((row) => {
      const want = row[which];
      const got = readMeter(this.#harness, {
        operatingConditions: this.#situation(row.state, row.unplugged),
        probe: { kind: row.meter === "volts" ? "dc-voltage" : "resistance", red: row.red, black: row.black },
        compareWith: [],
      });
      const { meter, state, red, black, unplugged } = row;
      const isHidden = got.kind === "refused" && got.because.some(({ code }) => code === "hidden");
      if (HIDDEN.has([id, which, red, black, ...unplugged].join(" ")))
        return isHidden ? [] : [`${id} ${red}: not hidden`];
      const isRight =
        want === null
          ? got.kind === "overload"
          : (got.kind === "value" && isClose(got.value, want, row.meter)) || isFloatingZero(got.kind, want);
      const at = `${meter} ${state} ${red} ${black} ${unplugged.join()}`;
      return isRight ? [] : [`${which} ${at}: ${String(want)}, here ${JSON.stringify(got).slice(0, 80)}`];
    });
  }

  panel(panel: Panel): readonly string[] {
    return Object.entries(panel).flatMap(([state, rows]) => {
      const point = solveCircuit(this.#harness, this.#situation(state, []));
      if (point.kind !== "settled") return [`${state}: ${point.kind}`];
      return Object.entries(rows).flatMap(([name, want]) =>
        this.#cell(point, name, want).map((text) => `${state} ${text}`),
      );
    });
  }

  #cell(point: OperatingPoint, name: string, want: number | readonly string[]): readonly string[] {
    if (typeof want === "number") {
      const got = nodeVolts(point, pointNumber(this.#harness, point, name) ?? -1);
      const isRight = got.kind === "dc-voltage" ? isClose(got.volt, want, "volts") : isFloatingZero(got.kind, want);
      return isRight ? [] : [`${name}: ${String(want)}, here ${JSON.stringify(got)}`];
    }
    const got = name === "awake" ? this.#awake(point) : this.#relaysIn(point);
    const [one, other] = [want.toSorted().join(), got.toSorted().join()];
    return one === other ? [] : [`${name}: ${one}, here ${other}`];
  }

  #awake({ modes }: OperatingPoint): readonly string[] {
    const units = [...this.#harness.fitted.components.values()].filter(({ kind }) => kind === "module");
    return units.flatMap(({ id, needs }) => (needs !== undefined && !modes.units.has(id) ? [id] : []));
  }

  #relaysIn({ modes }: OperatingPoint): readonly string[] {
    return [...this.#harness.fitted.components.values()].flatMap(({ id, elements }) =>
      elements.flatMap((each) =>
        each.kind === "contact" && modes.energised.has(`${id}.${each.of}`) ? [`${id}.${each.id}`] : [],
      ),
    );
  }

  get #harness() {
    const harness = builds.get(this.#build);
    if (!harness) throw new Error(`no build ${this.#build}`);
    return harness;
  }

  #situation(state: string, unplugged: readonly string[]): OperatingConditions {
    const key = [state, ...unplugged].join(" ");
    const situation = this.#situations.get(key) ?? { state, unplugged, faults: this.#faults };
    this.#situations.set(key, situation);
    return situation;
  }
}

describe("the machine against the readings of the workshop cases", () => {
  test.each(readCases().map((each) => [each.id, each] as const))("%s: readings, volts, units, relays", (_, each) => {
    const faulty = new Bench(each.build, each.faults.flatMap(faultsOf));
    const healthy = new Bench(each.build, []);
    expect([
      ...faulty.readings(each, "faulty"),
      ...faulty.panel(each.panel),
      ...healthy.readings(each, "healthy"),
      ...healthy.panel(each.panelHealthy),
    ]).toEqual([]);
  });
});
