import { describe, expect, test } from "vitest";
import { findProbePoints, type ProbePoint } from "ohmward/measurement-safety";
import { leadPlace } from "../../../src/application/job/check-facts.ts";
import { demo } from "../demo-machine.ts";

const harness = demo.harness("base");
if (!harness) throw new Error("no harness");

function pointAt(at: string, isWanted: (point: ProbePoint) => boolean): ProbePoint {
  const state = harness?.document.states.find(({ id }) => id === "KOEO");
  const node = harness?.nodeNumbers.get(at);
  if (!harness || !state || node === undefined) throw new Error("no such point");
  const found = findProbePoints(harness, { nodes: [node] }, state).points.find(
    (point) => point.at === at && isWanted(point),
  );
  if (!found) throw new Error(`no permitted way to ${at}`);
  return found;
}

describe("leadPlace()", () => {
  // The document gives B3.X as seen from the wire side of its harness half: cavities 1, 2, 3 from the left, latch on top, key on the left.
  test("counts the cavities of an opened connector as they are seen from the mating side: mirrored", () => {
    const place = leadPlace(
      harness,
      "red",
      pointAt("B3.X.harness:1", ({ method }) => method === "front-probe"),
    );
    expect(place).toMatchObject({
      lead: "red",
      class: "P3",
      unplug: "B3.X",
      cavity: { connector: "B3.X", side: "B3.X.harness", id: "1", view: "mating-side" },
      wires: [{ id: "W72", colour: "PK", colourName: "pink", crossSectionMm2: 0.5, net: "5V-A" }],
    });
    expect(place.cavity?.seen).toBe(
      "mating-face view, lock at the top, keying on the right: position 3 of 3 from the left",
    );
  });

  test("counts those of a connector that stays mated from the wire side, and names the adapter", () => {
    const place = leadPlace(
      harness,
      "black",
      pointAt("B3.X.harness:1", ({ method }) => method === "in-line"),
    );
    expect(place.cavity?.seen).toBe(
      "wire-entry view, lock at the top, keying on the left: position 1 of 3 from the left",
    );
    expect(place.adapter).toEqual({ id: "TL-3-0.64", label: "T-lead, 3 cavities, 0.64 mm, sealed" });
  });

  test("names the row where there are several, and none around a circle", () => {
    const rows = leadPlace(
      harness,
      "red",
      pointAt("A1.X1.harness:36", ({ method }) => method === "in-line"),
    );
    expect(rows.cavity?.seen).toMatch(/row \d of \d from the top, position \d+ of \d+ from the left$/u);
    const round = [...harness.book.connectors.values()].find(({ face }) => face.shape === "round");
    expect(round).toBeDefined();
    const side = round?.sides[0];
    const at = `${round?.id ?? ""}.${side?.id ?? ""}:${round?.cavities[0]?.id ?? ""}`;
    const any = pointAt("G2-", () => true);
    expect(leadPlace(harness, "red", { ...any, at }).cavity?.seen ?? "").not.toContain("row");
  });

  test("a stud has neither cavity nor view", () => {
    const place = leadPlace(
      harness,
      "black",
      pointAt("G2-", () => true),
    );
    expect(place).toMatchObject({ at: "G2-", of: { label: "Battery negative post" }, wires: [] });
    expect(place.cavity).toBeUndefined();
  });
});
