import { sideKey, lookUpPoint, pointKey, endAddresses, type Point } from "../address-book.ts";
import { makeFitting, type Fitting } from "../fitting.ts";
import { problem } from "../problem.ts";
import type { Build } from "../schema/machine.ts";
import type { Wire } from "../schema/routing.ts";
import { cavitiesThatDiffer } from "./check-connectors.ts";
import type { CheckContext } from "./check-context.ts";

/**
 * Checks each build: nothing fitted hangs on something that is not, wires in one cavity are of one net, no splice joins fewer than two, no
 * connector has more than two halves, and mating halves have the same cavities. What is wrong in several builds is reported in
 * the first of them.
 */
export function checkBuilds(context: CheckContext): void {
  const reported = new Set<string>();
  const ends = context.document.wires.map((wire) =>
    endAddresses(wire).map((address) => lookUpPoint(context.book, address, { by: "wire" })),
  );
  for (const build of context.document.builds) {
    const once: CheckContext["report"] = (found) => {
      const key = `${found.code} ${found.at.path}`;
      if (reported.has(key)) return;
      reported.add(key);
      context.report(found);
    };
    const given = { context: { ...context, report: once }, build, isFitted: makeFitting(build) };
    checkWireEnds(given, ends);
    checkElementEnds(given);
    checkSides(given);
  }
}

interface Given {
  readonly context: CheckContext;
  readonly build: Build;
  readonly isFitted: Fitting;
}

function isPointFitted(point: Point, isFitted: Fitting): boolean {
  switch (point.kind) {
    case "contact":
      return isFitted(point.connector.when) && isFitted(point.side.when);
    case "splice":
      return isFitted(point.splice.when);
    case "stud":
      return isFitted(point.stud.when);
    case "open-end":
      return isFitted(point.wire.when);
    case "inner":
      return isFitted(point.component.when);
  }
}

function checkWireEnds(
  { context, build, isFitted }: Given,
  ends: readonly (readonly ReturnType<typeof lookUpPoint>[])[],
): void {
  const { document, report } = context;
  const usedBy = new Map<string, Wire>();
  const legs = new Map<string, number>();
  document.wires.forEach((wire, at) => {
    if (!isFitted(wire.when)) return;
    ends[at]?.forEach((point, end) => {
      if (point.kind === "none") return;
      const place = { path: `wires[${at}].ends[${end}]`, id: wire.id, build: build.id };
      const address = endAddresses(wire)[end] ?? "";
      if (!isPointFitted(point, isFitted)) {
        report(problem("end-not-fitted", place, { id: wire.id, address, build: build.id }));
      }
      if (point.kind === "splice") legs.set(point.splice.id, (legs.get(point.splice.id) ?? 0) + 1);
      if (point.kind !== "contact") return;
      const key = pointKey(point);
      const first = usedBy.get(key);
      // Two wires in one terminal are joined there; only names that contradict each other are told.
      if (first?.net === undefined) usedBy.set(key, wire);
      else if (wire.net !== undefined && wire.net !== first.net) {
        const names = { first: `${first.id} (${first.net})`, second: `${wire.id} (${wire.net})` };
        report(problem("nets-joined", place, { address: key, ...names, build: build.id }));
      }
    });
  });
  document.splices.forEach((splice, at) => {
    const wires = legs.get(splice.id) ?? 0;
    if (isFitted(splice.when) && wires < 2) {
      const place = { path: `splices[${at}]`, id: splice.id, build: build.id };
      report(problem("splice-too-few-wires", place, { splice: splice.id, wires, build: build.id }));
    }
  });
}

function checkElementEnds({ context, build, isFitted }: Given): void {
  const { document, book, report } = context;
  document.components.forEach((component, at) => {
    if (!isFitted(component.when)) return;
    component.elements.forEach((element, place) => {
      if (!isFitted(element.when)) return;
      const ends = element.between.map((address, end) => ({ address, path: `between[${end}]` }));
      if (element.kind === "divider") ends.push({ address: element.tap, path: "tap" });
      ends.forEach(({ address, path }) => {
        const point = lookUpPoint(book, address, { by: "element", component });
        if (point.kind === "none" || isPointFitted(point, isFitted)) return;
        const id = `${component.id}.${element.id}`;
        const where = { path: `components[${at}].elements[${place}].${path}`, id, build: build.id };
        report(problem("end-not-fitted", where, { id, address, build: build.id }));
      });
    });
  });
}

function checkSides({ context, build, isFitted }: Given): void {
  context.document.connectors.forEach((connector, at) => {
    if (!isFitted(connector.when)) return;
    const place = { path: `connectors[${at}]`, id: connector.id, build: build.id };
    const sides = connector.sides.filter((side) => isFitted(side.when));
    const [first, second, third] = sides;
    if (third) {
      const names = sides.map((side) => sideKey(connector, side)).join(", ");
      context.report(problem("too-many-halves", place, { connector: connector.id, sides: names, build: build.id }));
    } else if (first && second) {
      const differ = cavitiesThatDiffer(connector, first, second);
      if (differ.length === 0) return;
      const names = { first: sideKey(connector, first), second: sideKey(connector, second) };
      context.report(
        problem("mating-cavities-differ", place, { connector: connector.id, ...names, cavities: differ.join(", ") }),
      );
    }
  });
}
