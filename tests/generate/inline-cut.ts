import { modulePin, wireKind } from "./branch-sources.ts";
import type { HarnessDraft, PinBank, WireEnd, WireKind } from "./harness-draft.ts";

/** An inline connector across a branch: `m` towards the trunk, `b` towards the parts, and where it is optional a jumper plug `j`. */
export class InlineCut {
  readonly #draft: HarnessDraft;
  readonly #place: number;
  readonly #id: string;
  readonly #when: string | undefined;
  #used = 0;

  constructor(draft: HarnessDraft, place: number, when: string | undefined) {
    this.#draft = draft;
    this.#place = place;
    this.#id = draft.nextId("XI");
    this.#when = when;
  }

  /** Brings a wire to the next cavity and returns the other side of it. The wire is there whether or not the branch is fitted. */
  pass(from: WireEnd, kind: WireKind): WireEnd {
    this.#used++;
    this.#draft.wire(from, this.side("m", this.#used), kind);
    return this.side("b", this.#used);
  }

  side(side: "m" | "b" | "j", cavity: number): WireEnd {
    return { address: `${this.#id}${side}:${cavity}`, spot: { kind: "place", place: this.#place } };
  }

  get last(): number {
    return this.#used;
  }

  get when(): string | undefined {
    return this.#when;
  }

  finish(): void {
    const id = this.#id;
    const when = this.#when === undefined ? {} : { when: this.#when };
    const sides = [
      { id: "m", name: `${id}m`, contacts: "pins" as const },
      { id: "b", name: `${id}b`, contacts: "sockets" as const, ...when },
    ];
    const jumper =
      this.#when === undefined
        ? []
        : [{ id: "j", name: `${id}j`, contacts: "sockets" as const, when: `!(${this.#when})` }];
    this.#draft.connector(id, this.#place, {
      kind: "inline",
      label: `Inline connector ${id}`,
      sides: [...sides, ...jumper],
      size: this.#used,
    });
  }
}

/** A loop from the module through the inline connector and back, closed by the branch or by the jumper plug in its place. */
export function wireInterlock(draft: HarnessDraft, inline: InlineCut, module: PinBank): void {
  for (const role of ["signal", "return"] as const) {
    const end = module.pin();
    module.elements.push(modulePin(module, end.address, role));
    inline.pass(end, wireKind(draft, role, end.address));
  }
  const [first, second] = [inline.last - 1, inline.last];
  const kind = { net: "interlock", kind: "signal" as const, colour: "VT", crossSectionMm2: 0.5 };
  const when = inline.when ?? "";
  draft.wire(inline.side("b", first), inline.side("b", second), { ...kind, when });
  draft.wire(inline.side("j", first), inline.side("j", second), { ...kind, when: `!(${when})` });
}
