/** Gives every text a number of its own, from 1, the same for both documents. */
export class Numbering {
  readonly #numbers = new Map<string, number>();
  readonly #texts: string[] = [""];

  /** The number of a text. */
  of(text: string): number {
    let number = this.#numbers.get(text);
    if (number === undefined) {
      number = this.#texts.push(text) - 1;
      this.#numbers.set(text, number);
    }
    return number;
  }

  /** The text of a number. */
  text(number: number): string {
    return this.#texts[number] ?? "";
  }
}
