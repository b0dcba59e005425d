import type { Origin } from "../../harness-model/index.ts";

/** Where a piece of data comes from and who checked it, in one line. */
export function originText({ source, checkedBy, checkedOn }: Origin): string {
  const checked =
    checkedBy === undefined
      ? "not checked"
      : `checked by ${checkedBy}${checkedOn === undefined ? "" : `, ${checkedOn}`}`;
  return `from ${source}; ${checked}`;
}
