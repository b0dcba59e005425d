import { err } from "../../base/index.ts";
import type { FormatReader } from "../format-reader.ts";
import { importProblem, inFile, type ImportProblem } from "../import-problem.ts";
import { assembleSource } from "./assemble-source.ts";
import type { HarnessReadOptions } from "./assembly.ts";
import type { HarnessSource } from "./harness-source.ts";
import { looksLikeXml, readXml, XML_LIMITS } from "./read-xml.ts";
import { checkReferences, type ClassOf } from "./source-facts.ts";
import type { XmlDocument } from "./xml-element.ts";

/** What a harness file says, and the problems of reading it; no source where it holds no harness. */
export interface SourceRead {
  readonly source: HarnessSource | undefined;
  readonly problems: readonly ImportProblem[];
}

/** An XML format that describes harnesses. */
export interface HarnessFormat {
  readonly id: string;
  readonly label: string;
  /** Name and namespace of the first element. */
  readonly root: string;
  readonly namespace: string;
  /** What has to be in the file, in words. */
  readonly wanted: string;
  /** Names of the elements whose text is one or more ids. */
  readonly references: ReadonlySet<string>;
  readonly classOf: ClassOf;
  /** Reads what the file says, without putting it together. */
  readonly read: (document: XmlDocument) => SourceRead;
}

/** Reads what a file of a format says, without putting it together. */
export function readSource(format: HarnessFormat, document: XmlDocument): SourceRead {
  const { name, namespace = "none", line } = document.root;
  const refuse = (problem: ImportProblem): SourceRead => ({ source: undefined, problems: [problem] });
  if (name !== format.root)
    return refuse(importProblem("xml-root-unknown", { line }, { name: name.slice(0, 80), wanted: format.root }));
  if (namespace !== format.namespace) {
    const facts = { namespace: namespace.slice(0, 200), wanted: format.namespace };
    return refuse(importProblem("xml-namespace-unknown", { line }, facts));
  }
  const references = checkReferences(document, format.references);
  const { source, problems } = format.read(document);
  const none = source ? [] : [importProblem("source-no-harness", { line }, { wanted: format.wanted })];
  return { source, problems: [...references.problems, ...none, ...problems] };
}

/** The reader of a format; one tolerant reader covers all its versions. */
export function harnessReader(format: HarnessFormat): FormatReader<HarnessReadOptions> {
  return {
    id: format.id,
    label: format.label,
    extensions: [`.${format.id}`],
    recognises: (bytes) => looksLikeXml(bytes, format.root),
    read: function* (bytes, options) {
      const file = options.fileName;
      const tree = yield* readXml(bytes, { ...XML_LIMITS, mostBytes: options.mostBytes ?? XML_LIMITS.mostBytes });
      if (!tree.ok) return err([inFile(tree.error, file)]);
      yield { share: 0.6, doing: "Understanding the file" };
      const { source, problems } = readSource(format, tree.value);
      if (!source) return err(problems.map((problem) => inFile(problem, file)));
      return yield* assembleSource(source, options, problems, () =>
        source.account.ledger(tree.value, file, format.classOf),
      );
    },
  };
}
