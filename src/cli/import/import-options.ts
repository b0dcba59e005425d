import { InvalidArgumentError } from "commander";
import { quantityProblem, readQuantity } from "../../base/index.ts";
import type {
  AnyReadOptions,
  ColourScheme,
  SystemInput,
  TableOptions,
  WantedBuild,
} from "../../import-export/index.ts";
import { ACCEPTED_KINDS, parseWantedBuild, tableKinds, type AcceptedKind } from "../../application/index.ts";

/** What was typed after `import`. */
export interface ImportCommandOptions {
  readonly out?: string;
  readonly force?: boolean;
  readonly sheet?: string;
  readonly columns?: string;
  readonly saveColumns?: string;
  readonly repairs?: string;
  readonly colourCode?: ColourScheme;
  readonly machine?: string;
  readonly voltage?: number;
  readonly variant: readonly WantedBuild[];
  readonly mate: readonly string[];
  readonly problems?: string;
  readonly accept?: ReadonlySet<AcceptedKind>;
  readonly template?: "pins" | "wires";
  readonly json?: boolean;
}

/** Reads `iec-60757`, or codes of the file with the ones they stand for: `B=BU,W=WH`. */
export function readColours(text: string): ColourScheme {
  if (text.toLowerCase() === "iec-60757") return { kind: "iec-60757" };
  const codes = text.split(",").map((part): readonly [string, string] => {
    const [written = "", code = "", ...rest] = part.split("=").map((each) => each.trim());
    if (written === "" || code === "" || rest.length > 0)
      throw new InvalidArgumentError("Write iec-60757, or the codes of the file: B=BU,W=WH.");
    return [written, code.toUpperCase()];
  });
  return { kind: "codes", codes };
}

/** Reads sorts of proposals that are right, such as `size-unit,same-signal`; `all` is every sort. */
export function readAccepted(text: string, before: ReadonlySet<AcceptedKind> = new Set()): ReadonlySet<AcceptedKind> {
  const kinds = Object.keys(ACCEPTED_KINDS) as AcceptedKind[];
  const names = text.split(",").map((name) => name.trim());
  const wrong = names.find((name) => name !== "all" && !kinds.includes(name as AcceptedKind));
  if (wrong !== undefined)
    throw new InvalidArgumentError(`There is no sort "${wrong}". Write ${kinds.join(", ")}, or all.`);
  return new Set([...before, ...(names.includes("all") ? kinds : (names as AcceptedKind[]))]);
}

/** Reads the nominal voltage of a machine. */
export function readVoltage(text: string): number {
  const read = readQuantity(text, { units: ["V"], scale: { low: 1, high: 1000, most: 1000 } });
  if (read.kind === "value" && read.value > 0) return read.value;
  const why = read.kind === "value" ? "" : quantityProblem(text, read);
  throw new InvalidArgumentError(`A voltage is a number such as 12 or 24. ${why}`.trim());
}

/** Reads a build and its options: `winter=COLD,TILLER`, or `plain=` for none. */
export function readNewBuild(text: string, before: readonly WantedBuild[]): readonly WantedBuild[] {
  const build = parseWantedBuild(text);
  if (!build) throw new InvalidArgumentError("Write a build and its options: winter=COLD,TILLER.");
  return [...before, build];
}

/**
 * What the readers are told.
 *
 * @param fileName Name of the file.
 * @param options What was typed.
 * @param said What a map file says about a table.
 */
export function readOptionsOf(fileName: string, options: ImportCommandOptions, said: TableOptions): AnyReadOptions {
  const { sheet, colourCode: colours, machine, voltage, variant, accept } = options;
  const system: SystemInput | undefined =
    voltage === undefined ? undefined : { nominalVolt: voltage, wireStandard: "iec-60228-class-5", temperatureC: 20 };
  const scheme = colours ?? said.colours;
  return {
    fileName,
    ...(machine === undefined ? {} : { machine }),
    ...(system === undefined ? {} : { system }),
    ...(variant.length === 0 ? {} : { builds: variant }),
    ...(scheme === undefined ? {} : { colours: scheme }),
    table: {
      ...said,
      ...(accept === undefined ? {} : { accept: tableKinds(accept) }),
      ...(sheet === undefined ? {} : { sheet }),
      ...(scheme === undefined ? {} : { colours: scheme }),
    },
  };
}
