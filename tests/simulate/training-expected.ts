/** A fault of demo-harness/expected.json in the text form of faults. */
export interface ExpectedFault {
  readonly id: string;
  readonly build: string;
  readonly fault: string;
  readonly comesAndGoes: boolean;
  readonly codes: readonly string[];
}

/** Reads the faults of demo-harness/expected.json. */
export function expectedFaults(expected: unknown): readonly ExpectedFault[] {
  return listOf(member(expected, "faults")).map((entry) => {
    const fault = member(entry, "fault");
    const kind = textOf(member(fault, "kind"));
    return {
      id: textOf(member(entry, "id")),
      build: textOf(listOf(member(entry, "builds"))[0]),
      fault: faultText(kind, fault),
      comesAndGoes: kind.startsWith("intermittent"),
      codes: listOf(member(entry, "codes")).map(textOf),
    };
  });
}

function faultText(kind: string, fault: unknown): string {
  const of = member(fault, "of");
  const ohm = member(fault, "ohm");
  const tail = typeof ohm === "number" ? `,${ohm}` : "";
  switch (kind) {
    case "intermittent-open":
      return `open:${textOf(of)}`;
    case "high-resistance":
      return `high-resistance:${textOf(of)}=${String(ohm)}`;
    case "short":
      return `short:${textOf(of)}=${textOf(member(fault, "to"))}${tail}`;
    case "bridge": {
      const [first, second] = listOf(member(fault, "between"));
      return `bridge:${textOf(first)}=${textOf(second)}${tail}`;
    }
    case "cross-wired": {
      const [first, second] = listOf(member(fault, "cavities"));
      return `cross-wired:${textOf(first)}=${textOf(second)}`;
    }
    default:
      return `${kind}:${textOf(of)}`;
  }
}

function member(value: unknown, name: string): unknown {
  return typeof value === "object" && value !== null ? (value as Readonly<Record<string, unknown>>)[name] : undefined;
}

function listOf(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}

function textOf(value: unknown): string {
  if (typeof value !== "string") throw new TypeError("A text is missing in expected.json");
  return value;
}
