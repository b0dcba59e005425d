import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chooseMachine } from "../../../src/ui/state/choose-machine.ts";

const [served, kept, demo] = [{ mark: "5e12ed" }, { mark: "6e47" }, { mark: "de30" }];

describe("chooseMachine()", () => {
  test.each([
    ["a served machine comes first", undefined, [served, kept, demo], false, served],
    ["where the server has none, the one that was opened last", undefined, [kept, demo], false, kept],
    ["at the very first start, the demo", undefined, [demo], false, demo],
    ["the kept one by its mark", kept.mark, [served, kept, demo], false, kept],
    ["the kept one by its mark without the server too", kept.mark, [kept, demo], true, kept],
    ["the demo by its mark", demo.mark, [served, kept, demo], false, demo],
    ["no demo for another machine", "0ther", [demo], false, "not-here"],
    ["no kept machine for another", "0ther", [served, kept, demo], false, "not-here"],
    ["no demo while the server may have a machine", undefined, [demo], true, "server-failed"],
    ["no kept machine while the server may have another", undefined, [kept, demo], true, "server-failed"],
    ["no demo for a machine the server may have", "0ther", [kept, demo], true, "server-failed"],
  ] as const)("%s", (...[, wanted, atHand, serverFailed, expected]) => {
    const choice = chooseMachine({ wanted, atHand, serverFailed });
    expect(choice.kind === "open" ? choice.machine : choice.kind).toBe(expected);
  });

  test("never opens a machine that an address does not name", () => {
    const mark = fc.constantFrom("a", "b", "c", "d");
    fc.assert(
      fc.property(mark, fc.array(fc.record({ mark })), fc.boolean(), (wanted, atHand, serverFailed) => {
        const choice = chooseMachine({ wanted, atHand, serverFailed });
        if (choice.kind === "open") expect(choice.machine.mark).toBe(wanted);
        else expect(atHand.map((each) => each.mark)).not.toContain(wanted);
      }),
    );
  });
});
