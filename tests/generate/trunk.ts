import type { HarnessDraft } from "./harness-draft.ts";

/** Drawing units between two places of the trunk. */
const STEP = 150;

/** The trunk, growing to the right. */
export class Trunk {
  readonly #draft: HarnessDraft;
  #last: number | undefined;
  width = 0;

  constructor(draft: HarnessDraft) {
    this.#draft = draft;
  }

  /** The next place of the trunk. */
  grow(): number {
    const at = { x: this.width, y: 0, zone: `Z${1 + (Math.floor(this.width / (40 * STEP)) % 8)}` };
    const lengthMm = this.#draft.random.integer(150, 500);
    this.#last = this.#draft.tree.add(
      this.#draft.nextId("TR"),
      at,
      this.#last === undefined ? undefined : { parent: this.#last, lengthMm },
    );
    this.width += STEP;
    return this.#last;
  }

  /** A place that hangs on the trunk by a short stub. */
  hang(id: string, side: -1 | 1): number {
    const parent = this.grow();
    const { x, zone } = this.#draft.tree.record(parent);
    return this.#draft.tree.add(
      id,
      { x, y: side * 80, zone },
      { parent, lengthMm: this.#draft.random.integer(100, 400) },
    );
  }
}
