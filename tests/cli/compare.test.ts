import { describe, expect, test } from "vitest";
import { demoText } from "../demo-harness/open-demo.ts";
import { run } from "./fake-io.ts";

const files = {
  "second.ohm.json": demoText("firnlark-45.ohm.json").replace('["A1.X1:36", "B3.X:3"]', '["A1.X1:40", "B3.X:3"]'),
};

describe("ohmward compare", () => {
  test("tells the changes as text and as data", async () => {
    const text = await run(["compare", "demo", "second.ohm.json"], { files });
    expect([text.code, text.out.split("\n")[0]]).toEqual([0, "What changed: 1 change at 2 connectors: 1 pin moved."]);
    const data = await run(["compare", "demo", "second.ohm.json", "--json"], { files });
    expect(JSON.parse(data.out)).toMatchObject({ kind: "compare", groups: [{ connector: "A1.X1" }] });
  });

  test("writes a table, and not over a file that is there", async () => {
    const { code, written } = await run(["compare", "demo", "second.ohm.json", "--csv", "new.csv"], { files });
    expect([code, new TextDecoder().decode(written.get("new.csv"))]).toEqual([
      0,
      expect.stringContaining(",W89,ends,"),
    ]);
    const again = await run(["compare", "demo", "second.ohm.json", "--csv", "second.ohm.json"], { files });
    expect([again.code, again.written.size]).toEqual([2, 0]);
  });

  test.each([
    ["an unknown build", ["demo", "demo", "--build-a", "winter"], 'no build "winter"'],
    ["an unknown state", ["demo", "demo", "--state", "FLYING"], 'no state "FLYING"'],
    ["a file that is not there", ["demo", "none.json"], "Cannot read none.json"],
    ["standard input twice", ["-", "-"], "once only"],
    ["two outputs", ["demo", "demo", "--json", "--csv", "-"], "one output only"],
  ])("refuses %s", async (_, args, text) => {
    const { code, err } = await run(["compare", ...args], { files });
    expect([code, err]).toEqual([2, expect.stringContaining(text)]);
  });
});
