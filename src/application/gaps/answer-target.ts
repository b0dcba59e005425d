import { endAddresses, type HarnessDocument } from "../../harness-model/index.ts";

/** What an answer is about. */
export interface AnswerTarget {
  readonly sort:
    | "machine"
    | "connector"
    | "cavity"
    | "stud"
    | "splice"
    | "segment"
    | "component"
    | "wire"
    | "net"
    | "state"
    | "zone";
  readonly id: string;
  /** Id of the cavity, where it is one. */
  readonly cavity?: string;
}

/**
 * Finds the item of a document that an answer is about.
 *
 * @param document The document.
 * @param about Id of an item, a cavity as `A1.X1:36`, or `machine`.
 * @returns The item; undefined where the document has none of that name.
 */
export function findAnswerTarget(document: HarnessDocument, about: string): AnswerTarget | undefined {
  if (about === "machine") return { sort: "machine", id: about };
  const lists = [
    ["connector", document.connectors],
    ["stud", document.terminalStuds],
    ["splice", document.splices],
    ["segment", document.segments],
    ["component", document.components],
    ["wire", document.wires],
    ["state", document.states],
    ["zone", document.zones],
  ] as const;
  for (const [sort, list] of lists) if (list.some(({ id }) => id === about)) return { sort, id: about };
  if (document.wires.some(({ net }) => net === about) || document.nets.some(({ id }) => id === about))
    return { sort: "net", id: about };
  const colon = about.lastIndexOf(":");
  const owner = about.slice(0, Math.max(0, colon));
  const connector = document.connectors.find(({ id, sides }) =>
    [id, ...sides.flatMap((side) => [`${id}.${side.id}`, side.name ?? id])].includes(owner),
  );
  const cavity = connector?.cavities.find(({ id }) => id === about.slice(colon + 1));
  if (connector && cavity) return { sort: "cavity", id: connector.id, cavity: cavity.id };
  const wire = document.wires.find((each) => endAddresses(each).includes(about));
  return wire && { sort: "wire", id: wire.id };
}
