import { lookUpPoint, endAddresses } from "../address-book.ts";
import { readColour } from "../colour.ts";
import { problem } from "../problem.ts";
import { BOUNDS, isWithin } from "../schema/bounds.ts";
import type { CheckContext } from "./check-context.ts";

/** Every wire ends somewhere, has a colour that exists, and a size and length that can be. */
export function checkWires({ document, book, report }: CheckContext): void {
  const nets = new Set(document.nets.map((net) => net.id));
  document.wires.forEach((wire, at) => {
    const path = `wires[${at}]`;
    const id = wire.id;
    endAddresses(wire).forEach((address, end) => {
      const point = lookUpPoint(book, address, { by: "wire" });
      if (point.kind === "none") {
        report(problem("dangling-end", { path: `${path}.ends[${end}]`, id }, { address, reason: point.reason }));
      }
    });
    if (wire.ends[0] === wire.ends[1]) {
      report(problem("joins-itself", { path: `${path}.ends`, id }, { id, address: wire.ends[0] }));
    }
    if (wire.colour !== undefined && !readColour(wire.colour)) {
      report(problem("unknown-colour", { path: `${path}.colour`, id }, { colour: wire.colour }));
    }
    const size = wire.crossSectionMm2;
    if (size !== undefined && !isWithin(BOUNDS.crossSectionMm2, size)) {
      report(
        problem(
          "impossible-cross-section",
          { path: `${path}.crossSectionMm2`, id },
          { value: size, least: BOUNDS.crossSectionMm2.least, most: BOUNDS.crossSectionMm2.most },
        ),
      );
    }
    if (wire.lengthMm !== undefined && !isWithin(BOUNDS.lengthMm, wire.lengthMm)) {
      report(
        problem(
          "impossible-length",
          { path: `${path}.lengthMm`, id },
          { value: wire.lengthMm, least: BOUNDS.lengthMm.least, most: BOUNDS.lengthMm.most },
        ),
      );
    }
    // A document may label wires freely, but once it lists its nets a label outside the list is a slip.
    if (wire.net !== undefined && nets.size > 0 && !nets.has(wire.net)) {
      report(problem("unknown-reference", { path: `${path}.net`, id }, { what: "net", id: wire.net }));
    }
  });
}
