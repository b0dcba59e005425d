import { cavityContents, connectorFace, type ConnectorFace } from "../../drawing/index.ts";
import { describeColour, type Harness } from "../../model/index.ts";
import type { ProbePoint } from "../../safety/index.ts";
import { describeItem } from "../../trace/index.ts";
import type { LeadPlace } from "./job-answers.ts";

/**
 * Where one lead goes: point, cavity with the view it is counted in, the wires there, the adapter.
 *
 * @param harness The harness.
 * @param lead Which lead.
 * @param point The permitted point.
 */
export function leadPlace(harness: Harness, lead: LeadPlace["lead"], point: ProbePoint): LeadPlace {
  const { adapter, unplug, item, how, method, minutes, isEstimated } = point;
  const at = point.at ?? item.id;
  const owned = harness.document.adapters.find(({ id }) => id === adapter);
  return {
    lead,
    at,
    of: describeItem(harness, item),
    how,
    class: point.class,
    method,
    minutes,
    isEstimated,
    ...(owned && { adapter: { id: owned.id, label: owned.label } }),
    ...(unplug === undefined ? {} : { unplug }),
    ...cavityOf(harness, at, unplug !== undefined),
  };
}

/** The cavity of a contact. An opened connector is looked into from its mating side, a mated one shows its wires only. */
function cavityOf(harness: Harness, at: string, isOpened: boolean): Pick<LeadPlace, "cavity" | "wires"> {
  const colon = at.lastIndexOf(":");
  const named = harness.book.halves.get(at.slice(0, colon));
  if (colon < 0 || !named) return { wires: [] };
  const { connector, half } = named;
  const id = at.slice(colon + 1);
  const view = isOpened ? ("mating-side" as const) : ("wire-side" as const);
  const face = connectorFace(connector, half, view);
  const wires = cavityContents(harness, connector, half).get(id)?.wires ?? [];
  return {
    cavity: { connector: connector.id, half: face.half, id, view, seen: seenAt(face, id) },
    wires: wires.map((wire) => wireFacts(harness, wire.id)),
  };
}

function wireFacts(harness: Harness, id: string): LeadPlace["wires"][number] {
  const { colour, crossSectionMm2, net } = harness.fitted.wires.get(id) ?? {};
  return {
    id,
    ...(colour === undefined ? {} : { colour, colourName: describeColour(colour) }),
    ...(crossSectionMm2 === undefined ? {} : { crossSectionMm2 }),
    ...(net === undefined ? {} : { net }),
  };
}

/** "mating side, latch at the top: row 1 of 2, 3rd of 6 from the left". */
function seenAt(face: ConnectorFace, id: string): string {
  const marks = [face.latch && `latch ${sideWords(face.latch.side)}`, face.key && `key ${sideWords(face.key.side)}`];
  const held = [face.viewName.toLowerCase(), ...marks].filter((part) => part !== undefined).join(", ");
  const own = face.cavities.find((cavity) => cavity.id === id);
  // Around a circle there is no row to count along.
  if (!own || face.shape === "round") return held;
  const rows = [...new Set(face.cavities.map(({ y }) => y))].sort((a, b) => a - b);
  const row = face.cavities.filter(({ y }) => y === own.y).sort((a, b) => a.x - b.x);
  const which = rows.length > 1 ? `row ${rows.indexOf(own.y) + 1} of ${rows.length} from the top, ` : "";
  return `${held}: ${which}place ${row.indexOf(own) + 1} of ${row.length} from the left`;
}

function sideWords(side: NonNullable<ConnectorFace["latch"]>["side"]): string {
  return side === "top" || side === "bottom" ? `at the ${side}` : `on the ${side}`;
}
