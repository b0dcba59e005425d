import { describe, expect, test } from "vitest";
import { run } from "./fake-io.ts";

const words = (line: string): readonly string[] => line.split(" ");

describe("circuit --diagram", () => {
  test("writes the diagram, and tells the answer with its cautions", async () => {
    const { code, out, err, written } = await run(words("circuit demo M2 -b base --diagram pump.svg"));
    const plain = await run(words("circuit demo M2 -b base"));
    expect([code, out, err]).toEqual([0, plain.out, "Circuit diagram written to pump.svg.\n"]);
    const svg = new TextDecoder().decode(written.get("pump.svg"));
    expect(svg).toMatch(/^<svg .*<title>M2 Fuel lift pump<\/title>/su);
    expect(svg).toContain(">A3.F10<");
    expect(svg).toContain("Caution:");
  });

  test("writes it to standard output, and the answer to standard error", async () => {
    const { code, out, err } = await run(words("circuit demo M2 -b base --diagram - --whole-feed"));
    expect([code, out.startsWith("<svg "), out.includes(">C01<")]).toEqual([0, true, true]);
    expect(err).toContain("Cautions");
    const both = await run(words("circuit demo M2 -b base --diagram - --json"));
    expect([both.code, both.out]).toEqual([2, ""]);
  });

  test("names the circuits where they are too many for one diagram, and says where there is nothing to draw", async () => {
    const isolator = await run(words("circuit demo S10 -b base --diagram s10.svg"));
    expect([isolator.code, isolator.written.size]).toEqual([2, 0]);
    expect(isolator.err).toContain("Draw one of them: A1.ign-input, ");
    const stud = await run(words("circuit demo K10.30 -b base --diagram k10.svg"));
    expect([stud.code, stud.err]).toEqual([2, expect.stringContaining("No wire ends at K10.30")]);
  });

  test("answers an unknown name as the question does, and leaves a file alone that is there", async () => {
    const unknown = await run(words("circuit demo nonsense-7 -b base --diagram x.svg --json"));
    const plain = await run(words("circuit demo nonsense-7 -b base --json"));
    expect([unknown.code, unknown.out]).toEqual([plain.code, plain.out]);
    const kept = await run(words("circuit demo M2 -b base --diagram pump.svg"), { files: { "pump.svg": "mine" } });
    expect([kept.code, kept.err]).toEqual([2, expect.stringContaining("--force replaces it")]);
  });
});
