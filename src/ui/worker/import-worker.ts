import "../state/zod-without-eval.ts";
import { runReading, type ReadProgress } from "../../formats/index.ts";
import { importFile, joinImports, previewImport, proposePairs } from "../../workbench/index.ts";
import type { ImportReply, ImportRequest } from "./import-messages.ts";
import { sentFault } from "./sent-fault.ts";

self.addEventListener("message", (event: MessageEvent<ImportRequest>) => {
  // A promise that fails in a worker tells nobody of it.
  answer(event.data).catch((fault: unknown) => reply({ kind: "failed", failure: sentFault(fault) }));
});

async function answer(request: ImportRequest): Promise<void> {
  switch (request.kind) {
    case "read":
      await read(request);
      break;
    case "propose":
      reply({ kind: "proposed", proposals: proposePairs(request.parts) });
      break;
    case "join":
      reply({ kind: "joined", result: joinImports(request.parts, request.pairs) });
      break;
  }
}

async function read({ file, table, memory, builds }: Extract<ImportRequest, { kind: "read" }>): Promise<void> {
  reply({ kind: "progress", progress: { share: 0, doing: "Fetching the file" } });
  const bytes = new Uint8Array(await file.arrayBuffer());
  const options = { fileName: file.name, table, ...(builds.length > 0 && { builds }) };
  const looked = runReading(previewImport(bytes, options, memory), tell(0, 0.3));
  if (!looked?.ok) {
    reply({ kind: "read", result: { ok: false, error: looked?.error ?? [] } });
    return;
  }
  const preview = looked.value;
  reply({ kind: "preview", preview });
  if (preview.kind === "table" && preview.preview.mapping.columns.length === 0) {
    reply({ kind: "needed", problems: preview.preview.problems });
    return;
  }
  const said =
    preview.kind === "table"
      ? { ...options, table: { ...table, mapping: preview.preview.mapping, headingRow: preview.preview.headingRow } }
      : options;
  const result = runReading(importFile(bytes, said), tell(0.3, 1));
  if (result) reply({ kind: "read", result });
}

/** Passes progress on, placed within that of the whole, a few times a second: the page has to draw it. */
function tell(from: number, to: number): (progress: ReadProgress) => undefined {
  let last = 0;
  return ({ share, doing }) => {
    if (Date.now() - last < 100) return;
    last = Date.now();
    reply({ kind: "progress", progress: { share: from + share * (to - from), doing } });
  };
}

function reply(message: ImportReply): void {
  self.postMessage(message);
}
