import {
  ask,
  askCompare,
  compareCsv,
  generatedFiles,
  machineOf,
  writeCompare,
  type CompareAnswer,
} from "ohmward/application";
import type { HarnessDocument } from "ohmward/harness-model";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { demo } from "../demo-machine.ts";

const schemaText = generatedFiles().find(({ fileName }) => fileName === "answer-compare.schema.json")?.text ?? "";
const schema = z.fromJSONSchema(z.record(z.string(), z.json()).parse(JSON.parse(schemaText)));

/** The demo machine with changes. */
function revised(change: (document: HarnessDocument) => void): ReturnType<typeof machineOf> {
  const document = structuredClone(demo.document);
  change(document);
  return machineOf(document);
}

function compared(after: ReturnType<typeof machineOf>, builds: { a?: string; b?: string } = {}): CompareAnswer {
  const answer = askCompare({ machine: demo, build: builds.a }, { machine: after, build: builds.b });
  if (!answer.ok) throw new Error(answer.error.text);
  expect(schema.safeParse(answer.value).error).toBeUndefined();
  expect(JSON.parse(JSON.stringify(answer.value))).toEqual(answer.value);
  return answer.value;
}

const wireOf = (document: HarnessDocument, id: string): HarnessDocument["wires"][number] => {
  const wire = document.wires.find((each) => each.id === id);
  if (!wire) throw new Error(`There is no wire ${id}`);
  return wire;
};

describe("askCompare()", () => {
  test("tells a moved pin, a colour, a size and a renamed code by connector, in one sentence first", () => {
    const answer = compared(
      revised((document) => {
        wireOf(document, "W89").ends = ["A1.X1:40", "B3.X:3"];
        Object.assign(wireOf(document, "W72"), { colour: "GY", crossSectionMm2: 0.75 });
        const code = document.codes.find(({ id }) => id === "FE111");
        if (code) code.id = "FE911";
      }),
    );
    expect(answer.text).toBe("3 changes at 2 connectors: 1 wire changed, 1 pin moved, 1 trouble code renamed.");
    const lines = writeCompare(answer).split("\n");
    expect(lines).toContain("  renamed  trouble code  FE911 (FE111 before)");
    expect(lines).toContain("  moved    wire          W89                   ends A1.X1:40, was A1.X1:36");
    expect(lines).toContain("  changed  wire  W72  colour GY, was PK; conductor size 0.75 mm², was 0.5 mm²");
    expect(answer.groups.map(({ part, connector }) => [part, connector])).toEqual([
      ["A1", "A1.X1"],
      ["B3", "B3.X"],
    ]);
    const csv = new TextDecoder().decode(compareCsv(answer)).split("\r\n");
    expect(csv.filter((line) => line.includes(",W72,"))).toHaveLength(2);
  });

  test("does not call what a document leaves out nothing, and tells the part of a route that differs", () => {
    const answer = compared(
      revised((document) => {
        const wire = wireOf(document, "W89");
        delete wire.colour;
        wire.route = wire.route?.slice(0, -1);
      }),
    );
    const texts = answer.groups.flatMap(({ changes }) =>
      changes.flatMap(({ fields }) => fields.map(({ text }) => text)),
    );
    expect(texts).toEqual(["colour not stated, was WH/RD", "route no longer SG07"]);
  });

  test("tells readings that differ, as the question for one reading answers them", () => {
    const after = revised((document) => {
      for (const { elements } of document.components)
        for (const element of elements)
          if (element.kind === "source" && element.role === "battery") element.voltageVolt += 6;
    });
    const { readings } = compared(after);
    expect(readings.compared).toBeGreaterThan(100);
    const fed = readings.differ.find(({ before, reads }) => before === "A3.X1.harness:1" || reads !== undefined);
    if (!fed?.reads) throw new Error("No reading differs");
    const question = { kind: "expected", red: fed.before, calculateOnly: true } as const;
    const setting = { build: "base", state: readings.state ?? "" };
    const [was, is] = [demo, after].map((machine) => ask(machine, setting, question));
    const valueIn = (text: string): number => Number(/^[\d.]+/u.exec(text)?.[0]);
    expect(was?.kind === "value" && Math.abs((was.value ?? NaN) - valueIn(fed.reads.before)) < 0.01).toBe(true);
    expect(is?.kind === "value" && Math.abs((is.value ?? NaN) - valueIn(fed.reads.after)) < 0.01).toBe(true);
  });

  test("tells a test point that is no longer permitted", () => {
    const { readings } = compared(
      revised((document) => {
        for (const connector of document.connectors) if (connector.id === "B3.X") connector.permits = [];
      }),
    );
    expect(readings.differ.map(({ after, testPoint }) => [after, testPoint !== undefined])).toContainEqual([
      "B3.X.harness:3",
      true,
    ]);
  });

  test("tells the reading of a signal at the pin it has moved to", () => {
    const { readings } = compared(
      revised((document) => {
        wireOf(document, "W89").ends = ["A1.X1:2", "B3.X:3"];
        const unit = document.connectors.find(({ id }) => id === "A1.X1");
        if (unit) unit.permits = [];
      }),
    );
    const moved = readings.differ.find(({ after }) => after === "A1.X1.harness:2");
    expect([moved?.before, moved?.testPoint !== undefined]).toEqual(["A1.X1.harness:36", true]);
  });

  test("tells two builds of one machine apart", () => {
    const answer = compared(demo, { a: "base", b: "tiller" });
    const added = answer.groups.flatMap(({ changes }) =>
      changes.filter(({ what }) => what === "added").map(({ after }) => after),
    );
    expect(added).toEqual(expect.arrayContaining(["Y9", "S4", "W68", "FC541"]));
    expect(answer.before.build).toBe("base");
  });

  test("says that nothing changed, and what was not compared", () => {
    const answer = compared(demo);
    expect([answer.text, answer.groups, answer.readings.differ]).toEqual(["No changes.", [], []]);
    expect(answer.notCompared).toContain("Readings of other builds than base are not compared.");
  });

  test.each([
    ["a build", askCompare({ machine: demo, build: "winter" }, { machine: demo }), "choose-build"],
    ["a state", askCompare({ machine: demo }, { machine: demo }, "FLYING"), "choose-state"],
  ])("asks for %s that there is", (_, answer, kind) => {
    expect(answer.ok ? "" : answer.error.kind).toBe(kind);
  });
});
