import { describe, expect, test } from "vitest";
import { joinDocuments } from "../../../src/import-export/xml/join-documents.ts";
import { mateConnectors, renameDocument } from "../../../src/import-export/xml/mate-connectors.ts";
import { proposeMatings } from "../../../src/import-export/xml/propose-matings.ts";
import { HarnessDraft } from "../../../src/import-export/draft/harness-draft.ts";
import { openHarness, type HarnessDocument } from "../../../src/harness-model/index.ts";
import { findPaths, resolve } from "../../../src/connectivity/index.ts";
import { demoMachine } from "./support/excerpt.ts";
import { fit, must } from "./support/harness-files.ts";

const system = { nominalVolt: 12, wireStandard: "iec-60228-class-5", temperatureC: 20 } as const;

/** A cable from a connector of three cavities to a ring; its ids are those of every such cable. */
function cable(connector: string, ring: string, net = "FEED"): HarnessDocument {
  const draft = new HarnessDraft({ file: `${connector}.kbl`, system });
  const place = draft.addPlace({ id: "PNID1", x: 10, y: 20 });
  const far = draft.addPlace({ id: "PNID2", x: 30, y: 40 });
  draft.addSegment({ id: "Segment_1", from: place, to: far, lengthMm: 500 });
  const plug = draft.addConnector({
    id: connector,
    label: "Coupling",
    place,
    component: draft.addComponent({ id: `${connector}-unit` }),
  });
  for (const cavity of ["1", "2", "3"]) draft.addCavity(plug, { id: cavity });
  draft.addTerminalStud({ id: ring, role: "terminal", place: far });
  for (const cavity of ["1", "2"]) {
    const more = {
      colour: cavity === "1" ? "RD" : "BK",
      crossSectionMm2: 1,
      lengthMm: 560,
      net: `${net}-${cavity}`,
      route: ["Segment_1"],
    };
    draft.addWire({ id: `W${cavity}`, ends: [draft.contact(plug, cavity), ring], ...more });
  }
  const made = draft.finish();
  if (!made.ok) throw new Error(made.error.map((problem) => problem.message).join("\n"));
  return made.value.document;
}

const one = cable("TX.1A1", "R1");
const two = cable("TX.2A1", "R2");

describe("proposeMatings()", () => {
  test("proposes connectors whose names differ in one number, with what their wires say", () => {
    expect(proposeMatings([one, two])).toEqual([
      {
        first: { part: 0, connector: "TX.1A1" },
        second: { part: 1, connector: "TX.2A1" },
        namesAlike: true,
        evidence: ["1", "2"].map((cavity) => ({ cavity, sameNet: true, sameColour: true, sameCrossSection: true })),
        score: 16,
      },
    ]);
  });

  test("proposes nothing inside one document, and nothing on names or nets that do not agree", () => {
    expect(proposeMatings([one])).toEqual([]);
    expect(proposeMatings([one, cable("QY.A", "R3", "OTHER")])).toEqual([]);
    expect(proposeMatings([one, cable("QY.A", "R3")]).map((proposal) => proposal.namesAlike)).toEqual([false]);
  });

  test("puts the pair that agrees before the one that does not", () => {
    const [first, second] = proposeMatings([one, cable("TX.3A1", "R3", "OTHER"), two]);
    expect([first?.second.part, second?.second.part]).toEqual([2, 1]);
    expect(must(second).evidence.map((each) => each.sameNet)).toEqual([false, false]);
  });
});

describe("joinDocuments()", () => {
  const joined = joinDocuments([{ document: one }, { document: two }], proposeMatings([one, two]));

  test("keeps the ids of the first document and renames what the second calls alike", () => {
    if (!joined.ok) throw new Error(joined.error.map((problem) => problem.message).join("\n"));
    const { document } = joined.value;
    expect(document.wires.map((wire) => [wire.id, wire.ends, wire.route])).toEqual([
      ["W1", ["TX.1A1:1", "R1"], ["Segment_1"]],
      ["W2", ["TX.1A1:2", "R1"], ["Segment_1"]],
      ["B-W1", ["TX.2A1:1", "R2"], ["B-Segment_1"]],
      ["B-W2", ["TX.2A1:2", "R2"], ["B-Segment_1"]],
    ]);
    expect(document.connectors.map((connector) => [connector.id, connector.kind, connector.component])).toEqual([
      ["TX.1A1+TX.2A1", "inline", undefined],
    ]);
    expect(document.components).toEqual([]);
    expect(document.builds.map((build) => build.id)).toEqual(["base"]);
  });

  test("makes one place of the two that meet, and draws the first document only", () => {
    const { document } = must(joined.ok ? joined.value : undefined);
    expect(document.topologyNodes).toEqual([
      { id: "PNID1", x: 10, y: 20 },
      { id: "PNID2", x: 30, y: 40 },
      { id: "B-PNID2" },
    ]);
    expect(document.segments.map((segment) => [segment.id, segment.from, segment.to])).toEqual([
      ["Segment_1", "PNID1", "PNID2"],
      ["B-Segment_1", "PNID1", "B-PNID2"],
    ]);
  });

  test("lets a trace run from one harness into the other", () => {
    const harness = fit(must(joined.ok ? joined.value.document : undefined));
    const [from, to] = ["R1", "R2"].map((text) => resolve(harness, text));
    if (from?.kind !== "one" || to?.kind !== "one") throw new Error("not found");
    const answer = findPaths(harness, [from.item, to.item], { through: "conductors" });
    expect(answer.kind === "found" && answer.path.map((item) => item.id)).toEqual([
      "R1",
      "W1",
      "TX.1A1+TX.2A1:1",
      "B-W1",
      "R2",
    ]);
  });

  test("reports a pair that cannot mate and goes on", () => {
    const pair = must(proposeMatings([one, two])[0]);
    const twice = joinDocuments([{ document: one }, { document: two }], [pair, pair]);
    expect(twice.ok && twice.value.warnings.map((problem) => problem.code)).toContain("mating-left-out");
  });

  test("combines builds, and refuses more than it can hold", () => {
    const machine = demoMachine();
    const both = joinDocuments([{ document: machine }, { document: one }], []);
    expect(both.ok && both.value.document.builds.map((build) => build.id)).toEqual(
      machine.builds.map((build) => build.id),
    );
    const chosen = joinDocuments([{ document: machine, build: "cold" }, { document: one }], []);
    expect(chosen.ok && chosen.value.document.builds.map((build) => [build.id, build.options])).toEqual([
      ["cold", ["OPT-COLD"]],
    ]);
    const many = joinDocuments(
      Array.from({ length: 4 }, () => ({ document: machine })),
      [],
    );
    expect(many.ok ? [] : many.error.map((problem) => problem.code)).toEqual(["join-too-many-builds"]);
    const none = joinDocuments([{ document: machine, build: "no such build" }, { document: one }], []);
    expect(none.ok ? [] : none.error.map((problem) => problem.code)).toEqual(["join-too-many-builds"]);
  });

  test("holds a whole machine twice: every name of the second is changed everywhere", () => {
    const machine = demoMachine();
    const parts = [1, 2].map(() => ({ document: machine, build: "base" }));
    const twice = joinDocuments(parts, []);
    if (!twice.ok)
      throw new Error(
        twice.error
          .map((problem) => problem.message)
          .slice(0, 5)
          .join("\n"),
      );
    for (const name of [
      "wires",
      "connectors",
      "components",
      "splices",
      "terminalStuds",
      "segments",
      "topologyNodes",
    ] as const) {
      expect(twice.value.document[name]).toHaveLength(2 * machine[name].length);
    }
    const harness = fit(twice.value.document);
    const whole = fit(machine);
    expect(harness.edges).toHaveLength(2 * whole.edges.length);
  });
});

describe("mateConnectors()", () => {
  const joined = joinDocuments([{ document: one }, { document: two }], []);
  const document = must(joined.ok ? joined.value.document : undefined);

  test("pairs cavities as told, and gives the others a name of their own", () => {
    const mated = mateConnectors(document, ["TX.1A1", "TX.2A1"], [["1", "2"]]);
    if (!mated.ok) throw new Error(mated.error);
    const opened = openHarness(JSON.stringify(mated.value));
    if (!opened.ok) throw new Error("does not open");
    expect(opened.value.document.connectors[0]?.cavities.map((cavity) => cavity.id)).toEqual([
      "1",
      "2",
      "3",
      "1-2",
      "3-2",
    ]);
    expect(opened.value.document.wires.slice(2).map((wire) => wire.ends[0])).toEqual(["TX.2A1:1-2", "TX.2A1:1"]);
  });

  test.each([
    [["TX.1A1", "none"], undefined, /no such connector/u],
    [["TX.1A1", "TX.1A1"], undefined, /the same/u],
    [["TX.1A1", "TX.2A1"], [["1", "9"]], /not there/u],
    [
      ["TX.1A1", "TX.2A1"],
      [
        ["1", "1"],
        ["1", "2"],
      ],
      /two others/u,
    ],
  ] as const)("%j with %j cannot mate", (ids, pairs, reason) => {
    const mated = mateConnectors(document, ids, pairs);
    expect(mated.ok ? "" : mated.error).toMatch(reason);
  });

  test("a connector with a known device behind it is not plugged into another", () => {
    const machine = demoMachine();
    const mated = mateConnectors(machine, ["B3.X", "B4.X"]);
    expect(mated.ok ? "" : mated.error).toMatch(/known component/u);
  });
});

describe("renameDocument()", () => {
  test("there and back again is the same document, whatever it names", () => {
    const machine = demoMachine();
    const ids = [
      "wires",
      "splices",
      "terminalStuds",
      "components",
      "connectors",
      "segments",
      "zones",
      "codes",
    ] as const;
    const renames = (turn: (pair: [string, string]) => [string, string]) => ({
      shared: new Map(
        [
          ...ids.flatMap((name) => machine[name].map((item) => item.id)),
          ...machine.connectors.flatMap((connector) =>
            connector.sides.flatMap((side) => (side.name === undefined ? [] : [side.name])),
          ),
        ].map((id) => turn([id, `Q-${id}`])),
      ),
      topologyNodes: new Map(machine.topologyNodes.map((place) => turn([place.id, `Q-${place.id}`]))),
      options: new Map(machine.options.map((option) => turn([option.id, `Q-${option.id}`]))),
      builds: new Map(machine.builds.map((build) => turn([build.id, `Q-${build.id}`]))),
      states: new Map(machine.states.map((state) => turn([state.id, `Q-${state.id}`]))),
      others: new Map([...machine.adapters, ...machine.cautions].map((item) => turn([item.id, `Q-${item.id}`]))),
    });
    const there = renameDocument(
      machine,
      renames((pair) => pair),
    );
    const opened = openHarness(JSON.stringify(there));
    expect(opened.ok ? [] : opened.error.slice(0, 5)).toEqual([]);
    expect(JSON.stringify(there)).not.toContain('"id":"W71"');
    expect(
      renameDocument(
        there,
        renames(([id, changed]) => [changed, id]),
      ),
    ).toEqual(machine);
  });
});
