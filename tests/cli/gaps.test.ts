import { describe, expect, test } from "vitest";
import { GapsReport } from "ohmward/application";
import { run } from "./fake-io.ts";

const LIST = "Connector,Pin,Signal,Colour\nECU,1,5V,VT\nECU,2,PRESS,GN\nTANK,A,5V,VT\nTANK,B,PRESS,GN\n";

async function imported(): Promise<string> {
  const { out } = await run(["import", "pins.csv", "-o", "-"], { files: { "pins.csv": LIST } });
  return out;
}

describe("gaps, answer, join", () => {
  test("import ends with what can be asked yet", async () => {
    const { out } = await run(["import", "pins.csv"], { files: { "pins.csv": LIST } });
    expect(out).toContain("Circuits and paths: 4 wires, 4 of them with one end only.");
    expect(out).toContain("Meter tests: the data needed for a test is known at 0 of 2 connectors.");
  });

  test("gaps lists what is missing, as text and as data", async () => {
    const files = { "m.json": await imported() };
    const text = await run(["gaps", "m.json"], { files });
    expect([text.code, text.err]).toEqual([1, ""]);
    expect(text.out).toContain("Is this connector sealed?");
    const data = await run(["gaps", "m.json", "--json"], { files });
    expect(GapsReport.parse(JSON.parse(data.out)).joins.map(({ id }) => id)).toEqual(["J1", "J2"]);
  });

  test("an answer is written to a new file, or in place where that is said, never else", async () => {
    const files = { "m.json": await imported() };
    const said = ["answer", "m.json", "ECU", "sealed=no", "--by", "A. Fitter", "--on", "2026-11-30"];
    expect((await run(said, { files })).code).toBe(2);
    expect((await run([...said, "-o", "m.json"], { files })).code).toBe(2);
    const fresh = await run([...said, "-o", "new.json"], { files });
    expect([fresh.code, [...fresh.written.keys()]]).toEqual([0, ["new.json"]]);
    const inPlace = await run([...said, "--in-place"], { files });
    expect([inPlace.code, [...inPlace.written.keys()]]).toEqual([0, ["m.json"]]);
  });

  test("wrong answers are refused all at once, and nothing is written", async () => {
    const files = { "m.json": await imported() };
    const done = await run(["answer", "m.json", "ECU", "sealed=perhaps", "permits=pierce", "--by", "N", "--in-place"], {
      files,
    });
    expect([done.code, done.written.size]).toEqual([2, 0]);
    expect(done.err).toMatch(/sealed=perhaps: [^]*permits=pierce: /u);
  });

  test("nothing is joined that a person does not name", async () => {
    const files = { "m.json": await imported() };
    const listed = await run(["join", "m.json"], { files });
    expect([listed.code, listed.written.size]).toEqual([0, 0]);
    expect(listed.out).toContain("ECU:1 - TANK:A");
    expect((await run(["join", "m.json", "J1", "-o", "new.json"], { files })).err).toContain("The name is missing");
    expect((await run(["join", "m.json", "J9", "--by", "N", "-o", "new.json"], { files })).code).toBe(2);
    const joined = await run(["join", "m.json", "J1", "--by", "N", "-o", "new.json"], { files });
    const decoded = joined.written.get("new.json");
    const text = typeof decoded === "string" ? decoded : new TextDecoder().decode(decoded);
    expect(text).toContain('["ECU:1", "TANK:A"]');
  });
});
