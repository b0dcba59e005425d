import { readQuantity } from "../../base/index.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { checkReferences } from "../xml/source/check-references.ts";
import type { HarnessSource } from "../xml/source/harness-source.ts";
import { childrenOf, type XmlDocument } from "../xml/xml-element.ts";
import { makeKblFacts, type KblFacts } from "./kbl-facts.ts";
import { plugIntoBoxes } from "./plug-into-boxes.ts";
import { readBoxes } from "./read-boxes.ts";
import { readConnectors } from "./read-connectors.ts";
import { readMatings } from "./read-matings.ts";
import { readOptions } from "./read-options.ts";
import { readTopology } from "./read-topology.ts";
import { readWires } from "./read-wires.ts";
import { KBL_REFERENCES } from "./reference-fields.ts";

/** Namespace of all versions of KBL from 2.3 on. Source: the KBL schemas. */
const KBL_NAMESPACE = "http://www.prostep.org/Car_electric_container/KBL2.3/KBLSchema";

/** What a KBL file says, and the problems of reading it; no source where it holds none. */
export interface KblSource {
  readonly source: HarnessSource | undefined;
  readonly problems: readonly ImportProblem[];
}

/**
 * Reads what a KBL file says, without putting it together.
 *
 * @param document The file as a tree.
 * @returns The source, or undefined where the file holds no harness, with the problems found.
 */
export function readKblSource(document: XmlDocument): KblSource {
  const { root } = document;
  const at = { line: root.line };
  if (root.name !== "KBL_container") {
    const facts = { name: root.name.slice(0, 80), wanted: "KBL_container" };
    return { source: undefined, problems: [importProblem("xml-root-unknown", at, facts)] };
  }
  if (root.namespace !== KBL_NAMESPACE) {
    const facts = { namespace: (root.namespace ?? "none").slice(0, 200), wanted: KBL_NAMESPACE };
    return { source: undefined, problems: [importProblem("xml-namespace-unknown", at, facts)] };
  }
  const references = checkReferences(document, KBL_REFERENCES);
  const kbl = makeKblFacts(document);
  if (kbl.harnesses.length === 0) {
    const problem = importProblem("source-no-harness", at, { wanted: "Harness" });
    return { source: undefined, problems: [...references.problems, problem] };
  }
  const boxes = readBoxes(kbl);
  const plugs = readConnectors(kbl);
  const { account } = kbl.facts;
  account.keep([root, ...kbl.harnesses], "head of the document");
  account.leaveOut(childrenOf(root, "Assembly_part"), "of assemblies only what wires are contacted at is read");
  account.leaveOut(
    kbl.harnesses
      .flatMap((harness) => [harness, ...childrenOf(harness, "Module")])
      .flatMap((owner) => childrenOf(owner, "Module_configuration")),
    "nothing that is kept needs it to say when it is fitted",
  );
  const source: HarnessSource = {
    account,
    ...aboutOf(kbl),
    ...readOptions(kbl),
    ...readTopology(kbl),
    ...plugIntoBoxes(kbl, {
      boxes: boxes.boxes,
      connectors: [...boxes.connectors, ...plugs.connectors],
      contacts: [...boxes.contacts, ...plugs.contacts],
      wires: readWires(kbl),
      matings: readMatings(kbl, [...boxes.owners, ...plugs.owners]),
    }),
  };
  return { source, problems: [...references.problems, ...kbl.facts.problems] };
}

function aboutOf({ facts, harnesses }: KblFacts) {
  const [harness] = harnesses;
  const number = facts.text(harness, "Part_number");
  const description = facts.text(harness, "Description");
  const version = facts.document.root.attributes.get("version_id");
  const notes = harnesses.flatMap((each) => {
    const copyright = facts.text(each, "Copyright_note");
    return copyright === undefined ? [] : [`Copyright note of the file: ${copyright}`];
  });
  const title = description ?? number ?? "Harness";
  const parts = [
    `KBL ${version ?? "of unknown version"}`,
    number && `part ${number}`,
    facts.text(harness, "Company_name"),
  ];
  return {
    title,
    source: parts.filter((part) => part !== undefined && part !== "").join(", "),
    notes,
    harness: number ?? description,
    nominalVolt: nominalVolt({ facts, harnesses }),
  };
}

/** The nominal voltage, where all connections that give one give the same plain number of volts. */
function nominalVolt({ facts, harnesses }: Pick<KblFacts, "facts" | "harnesses">): number | undefined {
  const texts = new Set(
    harnesses
      .flatMap((harness) => childrenOf(harness, "Connection"))
      .map((connection) => facts.text(connection, "Nominal_voltage"))
      .filter((text) => text !== undefined),
  );
  const [only] = texts;
  const read = texts.size === 1 ? readQuantity(only ?? "", { units: ["V"] }) : undefined;
  return read?.kind === "value" && read.value > 0 && read.value <= 1000 ? read.value : undefined;
}
