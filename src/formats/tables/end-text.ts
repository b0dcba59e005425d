import type { RowRecord } from "./row-records.ts";

/** What a row says about one end of a wire, as written. */
export interface EndText {
  readonly type: string;
  readonly component: string;
  readonly connector: string;
  readonly half: string;
  readonly pin: string;
}

/** What an end is. Ids are those of the file. */
export type EndPoint =
  | {
      readonly kind: "contact";
      readonly component: string;
      readonly connector: string;
      readonly half: string;
      readonly pin: string;
    }
  | { readonly kind: "splice"; readonly id: string }
  | {
      readonly kind: "stud";
      readonly id: string;
      readonly role: "ground" | "supply" | "terminal";
      readonly component: string;
    };

/** The two words for the ends of a wire in names of fields. */
export type EndSide = "from" | "to";

/** What a row says about one end, taken from its columns; an end in a single cell is taken apart. Undefined if the row names none. */
export function endTextOf(
  record: RowRecord,
  side: EndSide | "own",
  separator: string | undefined,
): EndText | undefined {
  if (side === "own") {
    const end = {
      type: record.text("type"),
      component: record.text("component"),
      connector: record.text("connector"),
      half: record.text("half"),
      pin: record.text("pin"),
    };
    return isEmpty(end) ? undefined : end;
  }
  const end: EndText = {
    type: record.text(`${side}Type`),
    component: record.text(`${side}Component`),
    connector: record.text(`${side}Connector`),
    half: record.text(`${side}Half`),
    pin: record.text(`${side}Pin`),
  };
  if (!isEmpty(end))
    return end.connector === "" ? end : end.pin === "" ? { ...end, ...splitEnd(end.connector, separator) } : end;
  const whole = record.text(side);
  return whole === "" ? undefined : { ...end, type: end.type, ...splitEnd(whole, separator) };
}

/** Only a type is no end. */
function isEmpty(end: EndText): boolean {
  return end.component === "" && end.connector === "" && end.pin === "";
}

/** Takes `A1.X1:36` apart at its last separator; without one the whole is a name. */
export function splitEnd(text: string, separator: string | undefined): { connector: string; pin: string } {
  for (const sign of separator === undefined ? [":"] : [":", separator]) {
    const at = text.lastIndexOf(sign);
    const [connector, pin] = [text.slice(0, at).trim(), text.slice(at + sign.length).trim()];
    if (at > 0 && connector !== "" && pin !== "") return { connector, pin };
  }
  return { connector: text.trim(), pin: "" };
}

/** Signs that may stand between connector and pin, apart from the colon, which always does. */
const SEPARATORS = ["/", " ", "-", "."];
const LEAST_SHARE = 0.8;
/** Cavities are numbered or lettered: `5`, `A`, `B12`, `30a`. */
const LOOKS_LIKE_PIN = /^(?:[A-Za-z]{0,2}\d{1,3}[A-Za-z]?|[A-Za-z]{1,2})$/u;

/**
 * Finds what stands between connector and pin where both are in one cell: the sign by which most cells fall into a name and a short pin.
 *
 * @param texts Cells that name an end.
 * @returns The sign; undefined if the colon will do or no sign fits most cells.
 */
export function findEndSeparator(texts: readonly string[]): string | undefined {
  const wanting = texts.filter((text) => !text.includes(":"));
  if (wanting.length * 2 <= texts.length) return undefined;
  // Hyphen and point also stand inside names, so they have to be stated.
  return SEPARATORS.slice(0, 2).find((sign) => {
    const split = wanting.filter((text) => LOOKS_LIKE_PIN.test(splitEnd(text, sign).pin));
    return split.length > 0 && split.length >= wanting.length * LEAST_SHARE;
  });
}
