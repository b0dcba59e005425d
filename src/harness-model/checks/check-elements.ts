import { lookUpPoint } from "../address-book.ts";
import { problem } from "../problem.ts";
import type { CheckContext } from "./check-context.ts";

/** Every element terminal exists and belongs to the component; every relay contact names a coil of its component. */
export function checkElements({ document, book, report }: CheckContext): void {
  document.components.forEach((component, at) => {
    const coils = new Set(component.elements.filter((element) => element.kind === "coil").map((element) => element.id));
    for (const end of ["positive", "negative", "wake"] as const) {
      const address = component.needs?.[end];
      const point = address === undefined ? undefined : lookUpPoint(book, address, { by: "element", component });
      if (address !== undefined && point?.kind === "none") {
        const where = { path: `components[${at}].needs.${end}`, id: component.id };
        report(problem("dangling-end", where, { address, reason: point.reason }));
      }
    }
    const drivers = new Set(component.elements.flatMap((each) => (each.kind === "driver" ? [each.id] : [])));
    component.needs?.wakeOutputs?.forEach((id, place) => {
      const where = { path: `components[${at}].needs.wakeOutputs[${place}]`, id: component.id };
      if (!drivers.has(id)) report(problem("unknown-reference", where, { what: "driver of this component", id }));
    });
    component.elements.forEach((element, place) => {
      const path = `components[${at}].elements[${place}]`;
      const id = `${component.id}.${element.id}`;
      const ends = element.between.map((address, end) => ({ address, path: `${path}.between[${end}]` }));
      if (element.kind === "divider") ends.push({ address: element.tap, path: `${path}.tap` });
      for (const end of ends) {
        const point = lookUpPoint(book, end.address, { by: "element", component });
        const where = { path: end.path, id };
        if (point.kind === "none") {
          report(problem("dangling-end", where, { address: end.address, reason: point.reason }));
        } else if (point.kind === "contact" && point.connector.component !== component.id) {
          const reason = `"${point.connector.id}" is no connector of component "${component.id}"`;
          report(problem("dangling-end", where, { address: end.address, reason }));
        } else if (point.kind === "splice") {
          report(problem("dangling-end", where, { address: end.address, reason: "an element cannot end at a splice" }));
        }
      }
      if (element.kind === "contact" && !coils.has(element.of)) {
        report(
          problem("unknown-reference", { path: `${path}.of`, id }, { what: "coil of this component", id: element.of }),
        );
      }
    });
  });
}
