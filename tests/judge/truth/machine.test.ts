import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readCases, type Panel, type WorkshopCase } from "../cases.ts";
import type { Fault } from "./fault.ts";
import { readDemoMachine } from "./harness-file.ts";
import { TrueMachine } from "./machine.ts";
import { haveNgspice, Ngspice } from "./ngspice.ts";

// Source: the workshop cases, whose readings were worked out with a circuit model made apart from this project and from the judge.
// OHMWARD_WHOLE=1 holds every case against them; otherwise every fifth.

const isWhole = process.env["OHMWARD_WHOLE"] === "1";
const taken = readCases().filter((_, at) => isWhole || at % 5 === 2);

/** Within 1 %, or 10 mV (6 mV below 0.6 V), or a twentieth of an ohm. */
function isClose(got: number, want: number, meter: "volts" | "ohms"): boolean {
  const least = meter === "ohms" ? 0.05 : Math.abs(want) < 0.6 ? 0.006 : 0.01;
  return Math.abs(got - want) <= Math.max(0.01 * Math.abs(want), least);
}

describe.skipIf(!haveNgspice())("the true machine against the readings of the workshop cases (needs ngspice)", () => {
  let ngspice: Ngspice;
  const machine = readDemoMachine();
  const healthy = new Map<string, TrueMachine>();
  beforeAll(() => {
    ngspice = new Ngspice();
  });
  afterAll(() => {
    ngspice.close();
  });

  const faultless = (build: string): TrueMachine => {
    const made = healthy.get(build) ?? new TrueMachine(machine, { build, faults: [] }, ngspice);
    healthy.set(build, made);
    return made;
  };

  function deviations(truth: TrueMachine, { readings }: WorkshopCase, which: "faulty" | "healthy"): readonly string[] {
    return readings.flatMap((row) => {
      const got = truth.read(row);
      const want = row[which];
      const fits = want === null ? got === "over range" : typeof got === "number" && isClose(got, want, row.meter);
      const at = `${row.meter} ${row.state} ${row.red} ${row.black} ${row.unplugged.join()}`;
      return fits ? [] : [`${at}: ${which} ${String(want)}, here ${String(got)}`];
    });
  }

  function panelDeviations(truth: TrueMachine, panel: Panel): readonly string[] {
    return Object.entries(panel).flatMap(([state, rows]) =>
      Object.entries(rows).flatMap(([name, want]) => {
        if (typeof want === "number") {
          const got = truth.voltsAt(state, name);
          return isClose(got, want, "volts") ? [] : [`${state} ${name}: ${String(want)}, here ${String(got)}`];
        }
        const got = name === "awake" ? truth.awake(state) : truth.relaysIn(state);
        const [one, other] = [want.toSorted().join(), got.toSorted().join()];
        return one === other ? [] : [`${state} ${name}: ${one}, here ${other}`];
      }),
    );
  }

  test.each(taken.map((each) => [each.id, each] as const))(
    "%s: every reading and every volt of the panel (needs ngspice)",
    (_, each) => {
      const truth = new TrueMachine(machine, each, ngspice);
      expect([...deviations(truth, each, "faulty"), ...panelDeviations(truth, each.panel)]).toEqual([]);
      const whole = faultless(each.build);
      expect([...deviations(whole, each, "healthy"), ...panelDeviations(whole, each.panelHealthy)]).toEqual([]);
    },
    120_000,
  );

  test("a short that is told without its fuse burns that fuse in every state (needs ngspice)", () => {
    const short: Fault = { kind: "short", of: "W30", to: "GND-C1", ohm: 0.05, at: 0.6 };
    const truth = new TrueMachine(machine, { build: "base", faults: [short] }, ngspice);
    expect(truth.blown()).toEqual(["A3.F10"]);
  }, 120_000);
});
