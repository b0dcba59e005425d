import type { ConnectorInput } from "./draft-types.ts";
import type { LooseCavity } from "./lay-out-cavities.ts";

/** A connector of which not everything may be known yet. */
export type LooseConnector = Pick<ConnectorInput, "id" | "label" | "halves"> &
  Partial<Omit<ConnectorInput, "id" | "label" | "halves" | "cavities">> & { cavities: LooseCavity[] };
