/** Where a machine comes from that can be opened without a file. */
export type MachineSource = "served" | "kept" | "demo";

/** What decides which machine is opened at the start, after a reload and on the way back. */
export interface MachineFacts<AtHand extends { readonly mark: string }> {
  /** The mark in the address; undefined for an address that names no machine. */
  readonly wanted: string | undefined;
  /** The machines that can be opened without a file, in order of precedence for an address that names none. */
  readonly atHand: readonly AtHand[];
  /** Whether the server could not say which machine it has, if any. */
  readonly serverFailed: boolean;
}

/** The machine to open, or why none is. */
export type MachineChoice<AtHand> =
  | { readonly kind: "open"; readonly machine: AtHand }
  | { readonly kind: "not-here" }
  | { readonly kind: "server-failed" };

/**
 * Which machine is opened: the one that the address names and no other. For an address that names none it is the first at hand, unless
 * the server may have another and could not say so.
 */
export function chooseMachine<AtHand extends { readonly mark: string }>({
  wanted,
  atHand,
  serverFailed,
}: MachineFacts<AtHand>): MachineChoice<AtHand> {
  const named = atHand.find(({ mark }) => mark === wanted);
  const first = wanted === undefined && !serverFailed ? atHand[0] : undefined;
  const machine = named ?? first;
  if (machine) return { kind: "open", machine };
  return { kind: serverFailed ? "server-failed" : "not-here" };
}
