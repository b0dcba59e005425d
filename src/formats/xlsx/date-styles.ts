import type { XmlListener } from "./scan-xml.ts";

/** Numbers of the built-in formats that show a date or a time. Source: ISO/IEC 29500-1, numFmts. */
const isBuiltInDate = (format: number): boolean =>
  (format >= 14 && format <= 22) || (format >= 27 && format <= 36) || (format >= 45 && format <= 58);

/** Whether a format of somebody's own shows a date: it holds day, month, year or hour letters outside of quotes and brackets. */
function isDateFormat(code: string): boolean {
  const bare = code.replace(/"[^"]*"|\\.|\[[^\]]*\]/gu, "");
  return /[dmyhs]/iu.test(bare) && !/general/iu.test(bare);
}

/** Collects which cell styles show a date; `isDate` takes the style number of a cell. */
export class DateStyles implements XmlListener {
  readonly #own = new Map<number, boolean>();
  readonly #styles: boolean[] = [];
  #isInCellFormats = false;

  open = (name: string, attributes: ReadonlyMap<string, string>): void => {
    if (name === "numFmt")
      this.#own.set(Number(attributes.get("numFmtId")), isDateFormat(attributes.get("formatCode") ?? ""));
    if (name === "cellXfs") this.#isInCellFormats = true;
    if (name !== "xf" || !this.#isInCellFormats) return;
    const format = Number(attributes.get("numFmtId") ?? 0);
    this.#styles.push(this.#own.get(format) ?? isBuiltInDate(format));
  };

  close = (name: string): void => {
    if (name === "cellXfs") this.#isInCellFormats = false;
  };

  text = (): void => undefined;

  isDate(style: string | undefined): boolean {
    return style !== undefined && this.#styles[Number(style)] === true;
  }
}
