import type { AddressBook } from "../address-book.ts";
import type { Problem } from "../problem.ts";
import type { HarnessDocument } from "../schema/document.ts";

/** What every check works with: it reads the document and the book, and reports. */
export interface CheckContext {
  readonly document: HarnessDocument;
  readonly book: AddressBook;
  readonly report: (problem: Problem) => void;
}
