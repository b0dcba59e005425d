import { err, naturalOrder, ok, type Result } from "../../base/index.ts";
import { compareHarnesses, type ChangeSort, type ComparedMachine, type HarnessChange } from "../../comparison/index.ts";
import type { ChooseAnswer } from "../answer.ts";
import { chooseBuild } from "../choose-build.ts";
import { counted } from "../text/frame.ts";
import type { CompareAnswer } from "./compare-answer.ts";
import { compareReadings, type ComparedSide } from "./compare-readings.ts";
import { COMPARED_NAMES, countedName, fieldText } from "./compare-words.ts";

/** Less of the machines than this in common means that they are hardly the same machine. */
const LITTLE_IN_COMMON = 0.5;

/**
 * What differs between two documents, two builds of one, or two machines.
 *
 * @param before What is compared; without a build all builds are.
 * @param after What it is compared with; a build of it is chosen where one of the other is asked for.
 * @param state Id of a state before, for the readings; the first with the key on if left out.
 * @returns The differences; or an answer that asks for a build or a state.
 */
export function askCompare(
  before: ComparedSide,
  after: ComparedSide,
  state?: string,
): Result<CompareAnswer, ChooseAnswer> {
  const isOneBuild = before.build !== undefined || after.build !== undefined;
  const left = fitted(before, isOneBuild);
  if (!left.ok) return left;
  const right = fitted(after, isOneBuild);
  if (!right.ok) return right;
  const { states, about } = before.machine.document;
  if (state !== undefined && !states.some(({ id }) => id === state)) {
    const choices = states.map(({ id, label }) => ({ id, label }));
    const text = `This machine has no state "${state}". Choose one of its states.`;
    return err({ kind: "choose-state", machine: about.machine, text, asked: state, choices });
  }
  const comparison = compareHarnesses(left.value, right.value);
  const { changes, counts } = comparison;
  const { readings, notCompared } = compareReadings([before, after], comparison, state);
  const share = counts.matched / Math.max(1, counts.before, counts.after);
  return ok({
    kind: "compare",
    text: sentence(changes, readings.differ.length, share),
    before: nameOf(left.value),
    after: nameOf(right.value),
    groups: groupsOf(changes, [before.machine.document, after.machine.document]),
    readings,
    notCompared: [...notCompared, "Remarks on sources and statements of people are not compared."],
  });
}

function fitted({ machine, build }: ComparedSide, isOneBuild: boolean): Result<ComparedMachine, ChooseAnswer> {
  if (!isOneBuild) return ok({ document: machine.document });
  const chosen = chooseBuild(machine, build);
  if (!chosen.ok) return chosen;
  const harness = machine.harness(chosen.value.build.id);
  return ok(harness ?? { document: machine.document });
}

function nameOf({ document: { about }, build }: ComparedMachine): CompareAnswer["before"] {
  return {
    machine: about.machine,
    ...(about.revision !== undefined && { revision: about.revision }),
    ...(build && { build: build.id }),
  };
}

/** `14 changes at 3 connectors; 2 pins moved, 1 wire added.` */
function sentence(changes: readonly HarnessChange[], readings: number, share: number): string {
  if (changes.length === 0) return "No changes.";
  const connectors = new Set(changes.flatMap(({ connectors: ids }) => ids)).size;
  const counts = new Map<string, number>();
  for (const { item, what, fields } of changes) {
    const isPin = what === "moved" && fields.some(({ field }) => field === "ends");
    const name = isPin ? "pin" : COMPARED_NAMES[item];
    counts.set(`${name}|${what}`, (counts.get(`${name}|${what}`) ?? 0) + 1);
  }
  const told = [...counts]
    .toSorted((one, two) => two[1] - one[1])
    .map(([key, count]) => {
      const [name = "", what = ""] = key.split("|");
      return `${countedName(count, name)} ${what}`;
    });
  const parts = told.slice(0, 5).join(", ") + (told.length > 5 ? " and others" : "");
  return [
    `${counted(changes.length, "change")}${connectors > 0 ? ` at ${counted(connectors, "connector")}` : ""}: ${parts}.`,
    ...(readings > 0 ? [`${counted(readings, "point")} with another reading or permission to measure.`] : []),
    ...(share < LITTLE_IN_COMMON ? ["The two have little in common; much of this may be two different machines."] : []),
  ].join(" ");
}

type Documents = readonly [before: ComparedMachine["document"], after: ComparedMachine["document"]];

function groupsOf(changes: readonly HarnessChange[], documents: Documents): CompareAnswer["groups"] {
  const labels = new Map<string, string>();
  const partOf = new Map<string, string>();
  for (const { connectors, components } of documents) {
    for (const { id, label } of components) labels.set(`part ${id}`, label);
    for (const { id, label, component } of connectors) {
      labels.set(`connector ${id}`, label);
      if (component !== undefined) partOf.set(id, component);
    }
  }
  const groups = new Map<
    string,
    { part?: string; connector?: string; label: string; changes: CompareAnswer["groups"][number]["changes"][number][] }
  >();
  for (const change of changes) {
    const connector = change.item === "part" || change.item === "element" ? undefined : change.connectors[0];
    const part = connector === undefined ? change.parts[0] : partOf.get(connector);
    const key = `${part ?? "~"} ${connector ?? ""}`;
    const label =
      connector !== undefined
        ? labels.get(`connector ${connector}`)
        : part === undefined
          ? "Wiring and data"
          : labels.get(`part ${part}`);
    const group = groups.get(key) ?? {
      ...(part !== undefined && { part }),
      ...(connector !== undefined && { connector }),
      label: label ?? "",
      changes: [],
    };
    group.changes.push(toChange(change));
    groups.set(key, group);
  }
  for (const { changes: own } of groups.values()) own.sort(inOrder);
  return [...groups].toSorted(([one], [two]) => naturalOrder(one, two)).map(([, group]) => group);
}

const SORTS: readonly ChangeSort[] = ["added", "removed", "moved", "renamed", "renumbered", "changed"];

function inOrder(one: Told, two: Told): number {
  const [a, b] = [one.after ?? one.before ?? "", two.after ?? two.before ?? ""];
  return naturalOrder(one.item, two.item) || naturalOrder(a, b) || SORTS.indexOf(one.what) - SORTS.indexOf(two.what);
}

type Told = CompareAnswer["groups"][number]["changes"][number];

function toChange({ item, what, before, after, fields, match, equivalent }: HarnessChange): Told {
  return {
    item: COMPARED_NAMES[item],
    what,
    ...(before !== undefined && { before }),
    ...(after !== undefined && { after }),
    fields: fields.map((field) => ({ ...field, text: fieldText(field) })),
    ...(match && { match }),
    equivalent,
  };
}
