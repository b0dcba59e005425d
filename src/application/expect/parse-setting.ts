import { err, ok, plainNumber, quantityProblem, readQuantity, type Result } from "../../base/index.ts";
import { BOUNDS, boundsText, isWithin } from "../../harness-model/index.ts";
import type { OperatingConditions } from "../../simulation/index.ts";

/** One thing set by hand: how a part stands, or how much a quantity of the outside world is. */
export type Setting =
  | {
      readonly kind: "stand";
      readonly of: string;
      readonly is: NonNullable<OperatingConditions["settings"]>[number]["is"];
    }
  | { readonly kind: "quantity"; readonly name: string; readonly value: number };

/** Why a setting was not read. */
export interface SettingProblem {
  readonly text: string;
  /** Settings that are read in one way, to choose from. */
  readonly ways: readonly string[];
}

/**
 * Reads a setting from its text form, a syntax of this project's own: `S1.run=closed` (or `open`, `on`, `off`), `A1.drv-fan=40%` of the
 * time, or a quantity with a number in the unit the document gives it in, `coolant-temperature=80`.
 *
 * @param text The text.
 * @param unitOf The unit a document gives a quantity in, which may be written after the number.
 * @returns The setting; or what is wrong with the text, with the ways to write it. Whether the machine has the thing is not looked at.
 */
export function parseSetting(
  text: string,
  unitOf: (quantity: string) => string | undefined = () => undefined,
): Result<Setting, SettingProblem> {
  const problem = (why: string, ways: readonly string[] = []): Result<Setting, SettingProblem> =>
    err({ text: why, ways });
  const equals = text.indexOf("=");
  const [of, value] = [text.slice(0, Math.max(0, equals)).trim(), text.slice(equals + 1).trim()];
  if (equals < 0 || of === "" || value === "")
    return problem(`"${text}" is no setting. Write for example S1.run=closed, A1.drv-fan=40% or temperature=80`);
  switch (value) {
    case "open":
    case "closed":
    case "on":
    case "off":
      return ok({ kind: "stand", of, is: value });
  }
  const unit = unitOf(of);
  const isShare = unit !== "%" && /[%\uff05]$/u.test(value);
  const read = readQuantity(
    value,
    isShare ? { units: ["%"] } : { units: [], ...(unit !== undefined && { ownUnit: unit }) },
  );
  if (read.kind === "question") {
    const ways = read.ways.map(({ write }) => `${of}=${write}`);
    return problem(`"${text}": ${quantityProblem(value, read)}`, ways);
  }
  if (read.kind !== "value") {
    const why = quantityProblem(value, read);
    return problem(`"${text}": write open, closed, on, off, a duty cycle such as 40%, or a number. ${why}`);
  }
  const bounds = isShare ? BOUNDS.dutyPercent : BOUNDS.quantity;
  if (!isWithin(bounds, read.value)) return problem(`"${text}": ${boundsText(bounds)}`);
  if (!isShare) return ok({ kind: "quantity", name: of, value: read.value });
  return ok({ kind: "stand", of, is: { dutyPercent: read.value } });
}

/** Writes a setting in the text form that is read back by {@link parseSetting}. */
export function formatSetting(setting: Setting): string {
  if (setting.kind === "quantity") return `${setting.name}=${plainNumber(setting.value)}`;
  return `${setting.of}=${typeof setting.is === "string" ? setting.is : `${plainNumber(setting.is.dutyPercent)}%`}`;
}
