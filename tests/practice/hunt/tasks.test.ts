import { findSigns, makeHunt, readTaskCode, writeTaskCode, type ReadyHunt } from "ohmward/practice";
import { solveCircuit, type Settled } from "ohmward/electrics";
import type { Harness } from "ohmward/model";
import { seededRandom } from "ohmward/base";
import { describe, expect, test } from "vitest";
import { demoText } from "../../demo-harness/open-demo.ts";
import { expectedFaults } from "../../simulate/practice-expected.ts";
import { demoDocument, demoIn } from "../support/machines.ts";

const listed = expectedFaults(JSON.parse(demoText("expected.json")));

/** A hunt of a code. */
function drawn(number: number): ReadyHunt {
  const build = demoDocument.builds[number % demoDocument.builds.length]?.id ?? "";
  const level = ([1, 2, 3] as const)[number % 3] ?? 1;
  const made = makeHunt(demoDocument, {
    kind: "code",
    code: writeTaskCode(demoDocument, { topic: "hunt", level, build, number }),
  });
  if (!made.ok) throw new Error(made.error.message);
  return made.value;
}

describe("the faults listed for the demo machine", () => {
  test.each(listed.map((fault) => [fault.id, fault] as const))("%s shows the codes that are listed", (_, fault) => {
    const { build, comesAndGoes } = fault;
    const made = makeHunt(demoDocument, {
      kind: "written",
      title: fault.id,
      build,
      fault: fault.fault,
      comesAndGoes,
      level: 1,
    });
    expect(made.ok ? "" : made.error.message).toBe("");
    // Source: demo-harness/expected.json. What is found may be more: the list names the codes a driver reads first.
    expect(made.ok && made.value.task.signs.codes).toEqual(expect.arrayContaining([...fault.codes]));
    expect(made.ok && made.value.task.complaint.length).toBeGreaterThan(0);
  });

  test("show nothing else where the list is exact", () => {
    const signs = (faults: Parameters<typeof findSigns>[1]): readonly string[] | undefined =>
      findSigns(demoIn("base"), faults)?.codes;
    expect(signs([{ kind: "open", of: "W81" }])).toEqual(["FE141"]);
    expect(signs([{ kind: "short", of: "W74", to: "GND-E1", ohm: 0.5 }])).toEqual(["FE112", "FE122", "FE152", "FE161"]);
    expect(signs([{ kind: "unplugged", of: "RT1.X" }])).toEqual(["FE412", "FC512"]);
    expect(signs([])).toEqual([]);
  });
});

describe("drawn hunts", () => {
  test("are the same for the same code and differ in what is hidden", () => {
    const ids = Array.from({ length: 12 }, (_, number) => drawn(number).task.hidden.candidate.id);
    expect(new Set(ids).size).toBeGreaterThan(9);
    expect(drawn(4)).toEqual(drawn(4));
  });

  test("are these, on every machine and in every version", () => {
    // Written down once: a change of this list is a change of every code handed out before.
    expect(Array.from({ length: 8 }, (_, number) => drawn(number).task.hidden.candidate.id)).toMatchSnapshot();
  });

  test("have a complaint that agrees with the solver", () => {
    const random = seededRandom(11);
    for (let turn = 0; turn < 25; turn++) {
      const { harness, task } = drawn(random.integer(0, 5000));
      for (const { component, what, state } of task.signs.functions) {
        const now = solveCircuit(harness, { state, faults: task.hidden.faults });
        const healthy = solveCircuit(harness, { state });
        if (now.kind !== "settled" || healthy.kind !== "settled") throw new Error("unsettled");
        // A part that is dead or weak has a consumer with less than nine tenths of its voltage, or is a module that has lost its supply.
        const worst = harness.edges.flatMap((edge, at) => {
          if (edge.kind !== "element" || edge.component.id !== component) return [];
          const across = ({ solved }: typeof now): number => {
            const [from, to] = [harness.index.from[at] ?? 0, harness.index.to[at] ?? 0];
            return solved.islands[from] === solved.islands[to]
              ? Math.abs((solved.volts[from] ?? 0) - (solved.volts[to] ?? 0))
              : 0;
          };
          return [{ before: across(healthy), after: across(now) }];
        });
        const isLess = worst.some(({ before, after }) => before > 3 && after < 0.9 * before);
        const isMore = worst.some(({ before, after }) => after > before + 3);
        const isOther = what === "on" || what === "unseen";
        const pin = isOther && isAnyPinMoved(harness, component, { healthy, now });
        const agrees = isLess || now.modes.dead.has(component) || pin || (what === "on" && isMore);
        expect([task.title, component, what, agrees]).toEqual([task.title, component, what, true]);
      }
    }
  });
});

/** Whether a terminal of a part stands on another voltage than in the healthy machine. */
function isAnyPinMoved(
  harness: Harness,
  component: string,
  { healthy, now }: { healthy: Settled; now: Settled },
): boolean {
  return harness.nodes.some((node, at) => {
    if (node.kind !== "contact" || node.connector.component !== component) return false;
    const volt = ({ solved, list }: Settled): number =>
      solved.islands[at] === solved.islands[list.reference]
        ? (solved.volts[at] ?? 0) - (solved.volts[list.reference] ?? 0)
        : 0;
    return Math.abs(volt(now) - volt(healthy)) > 3;
  });
}

describe("tasks that cannot be made", () => {
  const problem = (fault: string, build = "base"): string => {
    const made = makeHunt(demoDocument, { kind: "written", title: "t", build, fault, level: 1 });
    return made.ok ? "none" : made.error.code;
  };

  test("say why", () => {
    expect(problem("open:W999")).toBe("wrong-fault");
    expect(problem("nonsense")).toBe("wrong-fault");
    expect(problem("open:W81", "no-build")).toBe("unknown-build");
    // A thousandth of an ohm in a signal line shows nowhere.
    expect(problem("resistance:W89=0.001")).toBe("no-sign");
    const drills = writeTaskCode(demoDocument, { topic: "drills", level: 1, build: "base", number: 1 });
    const made = makeHunt(demoDocument, { kind: "code", code: drills });
    expect(made.ok ? "" : made.error.code).toBe("not-a-hunt");
    expect(readTaskCode(demoDocument, drills).ok).toBe(true);
  });
});
