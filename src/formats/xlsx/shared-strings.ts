import { decodeXstring } from "./escape-text.ts";
import type { XmlListener } from "./scan-xml.ts";

/** Collects the strings that cells refer to by number. Phonetic guides are no part of them. */
export class SharedStrings implements XmlListener {
  readonly strings: string[] = [];
  #parts: string[] = [];
  #isText = false;
  #isPhonetic = false;

  open = (name: string): void => {
    if (name === "si") this.#parts = [];
    else if (name === "rPh") this.#isPhonetic = true;
    else if (name === "t") this.#isText = !this.#isPhonetic;
  };

  close = (name: string): void => {
    if (name === "si") this.strings.push(decodeXstring(this.#parts.join("")));
    else if (name === "rPh") this.#isPhonetic = false;
    else if (name === "t") this.#isText = false;
  };

  text = (text: string): void => {
    if (this.#isText) this.#parts.push(text);
  };
}
