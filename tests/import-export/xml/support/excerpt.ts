import { openHarness, type HarnessDocument } from "../../../../src/harness-model/index.ts";
import { demoFile } from "./harness-files.ts";

/** Wires of the demo machine that the two excerpts hold. */
export const EXCERPT_WIRES: readonly string[] = (
  "W28 W29 W71 W72 W73 W74 W78 W79 W80 W82 W86 W87 W89 W90 W91 W93 " + "W121 W122 W123 W124"
).split(" ");

/** The whole demo machine. */
export function demoMachine(): HarnessDocument {
  const opened = openHarness(new TextDecoder().decode(demoFile("firnlark-45.ohm.json")));
  if (!opened.ok) throw new Error("The demo machine does not open");
  return opened.value.document;
}

/** What both documents have to say alike of the wires of the excerpt. */
export function wireFacts(document: HarnessDocument) {
  const wires = document.wires.filter((wire) => EXCERPT_WIRES.includes(wire.id));
  return wires
    .map(({ id, ends, colour, crossSectionMm2, lengthMm, net, group, when }) => {
      return { id, ends, colour, crossSectionMm2, lengthMm, net, group, when };
    })
    .toSorted((first, second) => (first.id < second.id ? -1 : 1));
}

/** Sum of the segments each wire runs through, in mm, by wire. A splice sits where its segment is cut. */
export function routeLengths(document: HarnessDocument): ReadonlyMap<string, number> {
  const lengths = new Map<string, number>(document.segments.map((segment) => [segment.id, segment.lengthMm]));
  const wires = document.wires.filter((wire) => wire.route !== undefined);
  return new Map(
    wires.map((wire) => [wire.id, (wire.route ?? []).reduce((sum, id) => sum + (lengths.get(id) ?? NaN), 0)]),
  );
}
