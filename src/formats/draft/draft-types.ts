import type { z } from "zod";
import type { HarnessDocument } from "../../model/index.ts";

/** A harness document as plain data, before it is checked: ids are plain texts. */
export type DocumentInput = z.input<typeof HarnessDocument>;

type Each<Name extends keyof DocumentInput> = DocumentInput[Name] extends readonly (infer Thing)[] ? Thing : never;

/** The electrical system as plain data. */
export type SystemInput = DocumentInput["system"];
/** A component as plain data. */
export type ComponentInput = Each<"components">;
/** A connector as plain data. */
export type ConnectorInput = Each<"connectors">;
/** A half of a connector as plain data. */
export type HalfInput = ConnectorInput["halves"][number];
/** A part as plain data. */
export type PartInput = NonNullable<HalfInput["part"]>;
/** What is fitted in a cavity, as plain data. */
export type FittedCavityInput = NonNullable<HalfInput["fitted"]>[number];
/** A cavity as plain data. */
export type CavityInput = ConnectorInput["cavities"][number];
/** A wire as plain data. */
export type WireInput = Each<"wires">;
/** A splice as plain data. */
export type SpliceInput = Each<"splices">;
/** A stud as plain data. */
export type StudInput = Each<"studs">;
/** A place as plain data. */
export type PlaceInput = Each<"places">;
/** A segment as plain data. */
export type SegmentInput = Each<"segments">;
/** A zone as plain data. */
export type ZoneInput = Each<"zones">;
/** A net as plain data. */
export type NetInput = Each<"nets">;
/** A build as plain data. */
export type BuildInput = Each<"builds">;
/** An option as plain data. */
export type OptionInput = Each<"options">;
/** A state as plain data. */
export type StateInput = Each<"states">;
