import { describeItem } from "../../connectivity/index.ts";
import type { Answer } from "../answer.ts";
import { cautionsFor } from "../cautions.ts";
import { makeHeader } from "../header.ts";
import type { TableQuestion } from "../question.ts";
import { resolveText } from "../resolve-text.ts";
import type { MachineContext } from "../machine-context.ts";
import { circuitLegs, type Leg, type Stop } from "./circuit-legs.ts";
import { METER_ASSUMPTION, MODEL_ASSUMPTIONS, stateAssumption, typicalAssumption } from "./expected-parts.ts";
import type { LeadFacts } from "./expected-answer.ts";
import { pointItem } from "./find-lead.ts";
import { findBlack } from "./place-leads.ts";
import { readConditions } from "./read-conditions.ts";
import { isToldApart } from "./reading-facts.ts";
import type { TableAnswer, TableRow } from "./table-answer.ts";
import { tableReader, type TableReader } from "./table-reader.ts";
import { wrongQuestion } from "./wrong-question.ts";

/** The readings of a table as things stand and, with faults, of the machine without them. */
interface Readers {
  readonly now: TableReader;
  readonly normal: TableReader | undefined;
  /** Connectors that are unplugged. */
  readonly opened: ReadonlySet<string>;
}

/**
 * What a voltmeter should say at all points of the circuits of a thing, healthy and faulty.
 *
 * @param context The machine in its build and state.
 * @param question The thing and the black point as typed, and what differs from the document.
 * @returns The table; or the answer that asks for other names, or says what is wrong with the question.
 */
export function askTable(context: MachineContext, question: TableQuestion): Answer {
  const of = resolveText(context, question.item);
  if (!of.ok) return of.error;
  const understood = readConditions(context, question);
  if (!understood.ok) return understood.error;
  const black = findBlack(context, question.black, "dc-voltage");
  if (!black.ok) return black.error;
  const { operatingConditions, normal, opened, facts } = understood.value;
  const how = { black: black.value.at, opened };
  const now = tableReader(context, { ...how, operatingConditions });
  const readers: Readers = {
    now,
    normal: normal && tableReader(context, { ...how, operatingConditions: normal }),
    opened,
  };
  const { legs, leftOut } = circuitLegs(context, of.value);
  const read = legs.map((leg) => ({ serves: leg.serves, role: leg.role, rows: rowsOf(context, leg, readers) }));
  const [problem] = now.problems();
  if (problem) return wrongQuestion(context, [problem]);
  const items = [of.value, ...legs.flatMap(({ stops }) => stops.map(({ item }) => item))];
  return {
    kind: "table",
    ...makeHeader(context, {
      cautions: cautionsFor(context, items),
      assumptions: [
        ...stateAssumption(context),
        `The black (COM) lead stays on ${black.value.at}.`,
        ...typicalAssumption(context),
        ...MODEL_ASSUMPTIONS,
        METER_ASSUMPTION,
      ],
    }),
    of: describeItem(context.harness, of.value),
    black: black.value.at,
    ...facts,
    because: now.reasons(),
    legs: read,
    legsLeftOut: leftOut,
  } satisfies TableAnswer;
}

function rowsOf(context: MachineContext, leg: Leg, readers: Readers): readonly TableRow[] {
  const rows: TableRow[] = [];
  for (const stop of leg.stops) {
    for (const row of rowsAt(context, stop, readers)) {
      const before = rows.at(-1)?.reading.value;
      const { value } = row.reading;
      const hasDrop = before !== undefined && before !== null && value !== null;
      rows.push(hasDrop ? { ...row, dropVolt: before - value } : row);
    }
  }
  return rows;
}

/** One row for a stop; two for a contact whose halves read differently. */
function rowsAt(context: MachineContext, { item, nodes, through }: Stop, readers: Readers): readonly TableRow[] {
  const { now, normal } = readers;
  const [first, second] = nodes;
  const isSplit =
    first !== undefined &&
    second !== undefined &&
    [now, ...(normal ? [normal] : [])].some((reader) => isToldApart(reader.read(first), reader.read(second)));
  const shown = isSplit ? nodes : nodes.toSorted((a, b) => rank(context, a) - rank(context, b)).slice(0, 1);
  return shown.map((node, at) => {
    const reading = now.read(node);
    const whole = normal?.read(node);
    const beside = isSplit ? [] : nodes.filter((each) => each !== node && !isOfOpened(context, each, readers.opened));
    const lead = now.judge({
      item: isSplit ? pointItem(context.harness.nodes[node], false) : item,
      nodes: [node, ...beside],
    });
    return {
      item: describeItem(context.harness, item),
      point: context.harness.nodes[node]?.key ?? "",
      through: at === 0 ? through : [],
      reading,
      ...(whole && { normal: whole, isToldApart: isToldApart(whole, reading) }),
      ...leadColumns(lead),
    };
  });
}

/** Half of a connector that is unplugged: the other half is no way to it. */
function isOfOpened({ harness }: MachineContext, number: number, opened: ReadonlySet<string>): boolean {
  const node = harness.nodes[number];
  return node?.kind === "contact" && opened.has(node.connector.id);
}

function leadColumns({ access, text, ways }: LeadFacts): Pick<TableRow, "access" | "text" | "reach" | "instead"> {
  const [way] = ways;
  if (access !== "permitted" || way === undefined)
    return {
      access,
      text,
      instead: ways.map(({ at = "", class: probeClass, unplug }) => ({
        at,
        class: probeClass,
        ...(unplug === undefined ? {} : { unplug }),
      })),
    };
  const { class: probeClass, method, minutes, adapter } = way;
  const reach = { class: probeClass, method, minutes, ...(adapter === undefined ? {} : { adapter }) };
  return { access, text, reach, instead: [] };
}

/** The harness half of a device connector goes first. */
function rank({ harness }: MachineContext, number: number): number {
  const node = harness.nodes[number];
  return node?.kind === "contact" && node.side.id === "device" ? 1 : 0;
}
