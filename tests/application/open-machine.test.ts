import { describe, expect, test } from "vitest";
import { machineOf, openMachine } from "ohmward/application";
import { demoText, openDemo } from "../demo-harness/open-demo.ts";
import { demo } from "./demo-machine.ts";

describe("openMachine()", () => {
  test("fits each build once and keeps it", () => {
    const base = demo.harness("base");
    expect(base?.build.id).toBe("base");
    expect(demo.harness("base")).toBe(base);
    expect(demo.harness("tiller")).not.toBe(base);
    expect(demo.harness("nothing")).toBeUndefined();
  });

  test("opens a text with a byte order mark", () => {
    expect(openMachine(`\uFEFF${demoText("firnlark-45.ohm.json")}`).ok).toBe(true);
  });

  test("gives every problem of a text that does not open", () => {
    const broken = demoText("firnlark-45.ohm.json").replaceAll('"SP11"', '"SP99"').replace('"WH/RD"', '"QQ"');
    const opened = openMachine(broken);
    const codes = opened.ok ? [] : opened.error.map((problem) => problem.code);
    expect(codes).toContain("unknown-colour");
    expect(openMachine("{").ok).toBe(false);
  });
});

test("machineOf() makes a machine of a document that is open already", () => {
  const machine = machineOf(openDemo());
  expect(machine.warnings).toEqual([]);
  expect(machine.harness("cold")?.build.id).toBe("cold");
});
