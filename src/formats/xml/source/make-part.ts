import { cut } from "../../draft/clean-id.ts";
import { MOST_TEXT_CHARACTERS } from "../../draft/cut-texts.ts";
import type { PartInput } from "../../draft/draft-types.ts";

/**
 * A part as the document has it.
 *
 * @param number Its number; a part without one is none.
 * @param maker Company whose number it is.
 * @param description What it is; left out where it only repeats the number.
 */
export function makePart(number: string, maker: string | undefined, description: string | undefined): PartInput {
  return {
    number: cutText(number),
    ...(maker === undefined ? {} : { maker: cutText(maker) }),
    ...(description === undefined || description === number ? {} : { description: cutText(description) }),
  };
}

/** A text as long as a document takes. */
export function cutText(text: string): string {
  return cut(text, MOST_TEXT_CHARACTERS);
}
