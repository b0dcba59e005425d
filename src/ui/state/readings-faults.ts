import type { Harness } from "../../harness-model/index.ts";

/** A fault as it is put together on the screen. */
export interface FaultForm {
  readonly id: string;
  readonly title: string;
  /** It takes a number of ohm. */
  readonly hasOhm: boolean;
}

/** The faults that are offered by name; everything else is written as text. */
export const FAULT_FORMS: readonly FaultForm[] = [
  { id: "open", title: "open", hasOhm: false },
  { id: "high-resistance", title: "high resistance", hasOhm: true },
  { id: "short", title: "short to ground", hasOhm: true },
  { id: "blown", title: "blown fuse or lamp", hasOhm: false },
  { id: "text", title: "other, as text", hasOhm: false },
];

/** The text of a fault that was put together; empty while its place is missing. */
export function faultText(
  harness: Harness | undefined,
  fault: { readonly form: string; readonly place: string; readonly ohm: string },
): string {
  const place = fault.place.trim();
  if (place === "") return "";
  const ohm = fault.ohm.trim();
  switch (fault.form) {
    case "high-resistance":
      return `high-resistance:${place}=${ohm}`;
    case "short":
      return `short:${place}=${groundOf(harness)},${ohm}`;
    case "text":
      return place;
    default:
      return `${fault.form}:${place}`;
  }
}

/** Where a short to ground goes: the first stud that is a ground, other than the battery's own post where there is another. */
function groundOf(harness: Harness | undefined): string {
  const grounds = [...(harness?.fitted.terminalStuds.values() ?? [])].filter(({ role }) => role === "ground");
  return (grounds.find(({ component }) => component === undefined) ?? grounds[0])?.id ?? "";
}
