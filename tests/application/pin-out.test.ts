import { describe, expect, test } from "vitest";
import { pinOut } from "ohmward/application";
import { demo } from "./demo-machine.ts";

const harness = demo.harness("base");
if (!harness) throw new Error("The demo machine has no base build");
const rowsOf = (id: string) => {
  const connector = harness.fitted.connectors.get(id);
  const side = connector && harness.fitted.sides.get(id)?.find((each) => each.id !== "device");
  if (!connector || !side) throw new Error(`No connector ${id}`);
  return pinOut(harness, connector, side);
};

describe("pinOut()", () => {
  // demo-harness/firnlark-45.ohm.json, wire W89; invented.
  test("tells colour, size, circuit and the other end of each wire", () => {
    expect(rowsOf("A1.X1").find(({ cavity }) => cavity === "36")?.wires).toEqual([
      {
        id: "W89",
        colour: "WH/RD",
        colourName: "white with red stripe",
        crossSectionMm2: 0.5,
        circuit: "Rail pressure",
        otherEnd: "B3.X:3",
        otherName: "Rail pressure sensor",
      },
    ]);
  });

  test("lists every cavity, also those without a wire", () => {
    const rows = rowsOf("A1.X1");
    expect(rows).toHaveLength(64);
    expect(rows.filter(({ wires }) => wires.length === 0).length).toBeGreaterThan(0);
  });

  test("over all connectors and sides, shows each end of each fitted wire at a contact once", () => {
    const shown = [...harness.fitted.connectors.values()].flatMap((connector) =>
      (harness.fitted.sides.get(connector.id) ?? []).flatMap((side) =>
        pinOut(harness, connector, side).flatMap(({ wires }) => wires.map(({ id }) => id)),
      ),
    );
    // Counted from the document: an end with a colon is a cavity, one without a splice or a stud.
    const inDocument = [...harness.fitted.wires.values()].flatMap(({ id, ends }) =>
      ends.filter((end) => end?.includes(":")).map(() => id),
    );
    expect(shown.toSorted()).toEqual(inDocument.toSorted());
  });
});
