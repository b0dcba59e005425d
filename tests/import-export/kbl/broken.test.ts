import { describe, expect, test } from "vitest";
import { kblReader } from "../../../src/import-export/kbl/kbl-reader.ts";
import { runReading } from "../../../src/import-export/format-reader.ts";
import { bytesOf, editInside } from "../xml/support/edit-text.ts";
import { demoFile, fit, must, readDocument, readHarness } from "../xml/support/harness-files.ts";

const text = new TextDecoder().decode(demoFile("firnlark-excerpt.kbl"));
const edit = (id: string, from: string | RegExp, to: string): Uint8Array => bytesOf(editInside(text, id, [from, to]));
const long = "x".repeat(5000);

/** The file without the children of a name inside one element. */
function without(id: string, name: string): string {
  return editInside(text, id, [new RegExp(`<${name}[\\s\\S]*</${name}>`, "u"), ""]);
}

describe("a broken KBL file is refused", () => {
  test.each([
    [
      "another namespace",
      edit("", "Car_electric_container/KBL2.3/KBLSchema", "somebody/else"),
      "xml-namespace-unknown",
    ],
    ["no namespace", edit("", / xmlns:kbl="[^"]*"/u, ' xmlns:kbl=""'), "xml-prefix-unknown"],
    ["another first element", bytesOf("<a/>"), "xml-root-unknown"],
    ["parts and no harness", bytesOf(text.replace(/ {2}<Harness [\s\S]*<\/Harness>\n/u, "")), "source-no-harness"],
    ["an id used twice", edit("cp_B3_X_3", 'id="cp_B3_X_3"', 'id="cp_B3_X_2"'), "xml-duplicate-id"],
    ["a wire that ends at nothing", edit("con_W89", "cp_B3_X_3", "cp_none"), "source-end-unknown"],
    ["a wire that ends at a unit", edit("con_W89", "cp_B3_X_3", "u_mm"), "source-end-unknown"],
    ["a contact in a cavity that is not there", edit("cp_B3_X_3", "kx_B3_X_3", "kx_none"), "source-end-unknown"],
    ["a wire that is a housing", edit("con_W89", "wire_W89", "h_B3_X"), "source-wrong-target"],
    ["a connector whose housing is itself", edit("x_B3_X", "h_B3_X", "x_B3_X"), "source-wrong-target"],
    ["a connector without cavities", edit("x_B3_X", /<Slots[\s\S]*<\/Slots>/u, ""), "source-end-unknown"],
    ["two contacts in one cavity", edit("cp_B3_X_3", "kx_B3_X_3", "kx_B3_X_2"), "options-not-resolved"],
    ["a file cut in two", bytesOf(text.slice(0, text.length / 2)), "xml-not-well-formed"],
    ["a document type", edit("", "<kbl:KBL_container", "<!DOCTYPE x>\n<kbl:KBL_container"), "xml-doctype"],
  ])("%s", (_what, bytes, code) => {
    const result = must(runReading(kblReader.read(bytes, { fileName: "broken.kbl" })));
    const errors = result.ok ? [] : result.error.filter((problem) => problem.severity === "error");
    expect(errors[0]).toMatchObject({ code, at: { file: "broken.kbl" } });
    for (const problem of errors)
      expect([problem.message, problem.hint].every((each) => each.length > 10 && each.length < 700)).toBe(true);
  });

  test("and the problem says where", () => {
    const result = readHarness(edit("con_W89", "cp_B3_X_3", "cp_none"));
    const found = result.ok ? undefined : result.error.find((problem) => problem.code === "source-end-unknown");
    const line = text.split("\n").findIndex((each) => each.includes('id="con_W89"')) + 1;
    expect(found?.at).toEqual({ file: "file", line, path: "Harness/Connection[13]" });
    expect(found?.message).toContain("W89");
  });

  test("unless asked for builds whose options it does not have", () => {
    const result = readHarness(bytesOf(text), { builds: [{ id: "x", options: ["OPT-NONE"] }] });
    expect(result.ok ? [] : result.error.map((problem) => problem.code)).toContain("option-unknown");
  });
});

describe("a KBL file with a fault that does not matter everywhere is read with a warning", () => {
  test.each([
    ["a reference into nothing", edit("x_B3_X", "tm_cp_B3_X_1", "tm_none"), "xml-dangling-reference"],
    ["a wire part that is not there", edit("wire_W89", "gw_WH_RD_0_5", "gw_none"), "xml-dangling-reference"],
    ["a value without unit", edit("gw_WH_RD_0_5", "<Unit_component>u_mm2</Unit_component>", ""), "source-unit-unknown"],
    ["a value in the wrong unit", edit("gw_WH_RD_0_5", "u_mm2", "u_a"), "source-unit-unknown"],
    ["a unit that is a wire", edit("gw_WH_RD_0_5", "u_mm2", "wire_W89"), "source-unit-unknown"],
    [
      "a number with a comma",
      edit("gw_WH_RD_0_5", "0.5</Value_component>", "0,5</Value_component>"),
      "source-number-wrong",
    ],
    ["a number in words", edit("wire_W89", "1060", "about a metre"), "source-number-wrong"],
    ["an endless number", edit("wire_W89", "1060", "INF"), "source-number-wrong"],
    [
      "a position that is no number",
      edit("con_W89", "<Position_on_wire>0<", "<Position_on_wire>start<"),
      "source-number-wrong",
    ],
    ["a wire of negative length", edit("wire_W89", "1060", "-1060"), "source-length-wrong"],
    ["a segment of negative length", edit("sg_SG07", "150", "-150"), "source-segment-left-out"],
    [
      "a segment without length",
      edit("sg_SG07", /<Virtual_length[\s\S]*<\/Virtual_length>/u, ""),
      "source-segment-left-out",
    ],
    ["a segment from nowhere", edit("sg_SG07", "nd_BP6", "nd_none"), "source-segment-left-out"],
    ["a route with a gap", edit("rt_W89", "sg_SG02b ", ""), "source-route-left-out"],
    ["a route to another place", edit("rt_W89", "sg_SG07", "sg_SG05"), "source-route-left-out"],
    ["a route that ends early", edit("rt_W89", " sg_SG07", ""), "source-route-left-out"],
    ["a route along a segment left out", edit("sg_SG07", "150", "0"), "source-route-left-out"],
    ["a colour nobody knows", edit("gw_WH_RD_0_5", ">RD<", ">striped<"), "source-colour-unknown"],
    [
      "a wire with one end",
      edit("con_W89", /<Extremities id="v68">[\s\S]*?<\/Extremities>/u, ""),
      "source-wire-without-ends",
    ],
    ["a configuration without modules", edit("cfg_cold", "m_std m_cold", " "), "build-empty"],
    [
      "a fuse without rating",
      bytesOf(editInside(without("fuse30", "Nominal_current"), "fuse30", ["Blade fuse 30 A", "Blade fuse"])),
      "fuse-rating-unknown",
    ],
    [
      "a fuse with its rating in words",
      edit("fuse30", /<Nominal_current[\s\S]*<\/Nominal_current>/u, ""),
      "fuse-rating-from-text",
    ],
    ["a relay with other pins", bytesOf(text.replace(/>85</u, ">1<")), "part-inside-unknown"],
    ["a part mounted in a connector", edit("K1", "A3_K1", "x_B3_X"), "part-inside-unknown"],
    ["a part mounted nowhere", edit("K1", "<Mounting>A3_K1</Mounting>", ""), "part-inside-unknown"],
    [
      "a connector that mates a splice",
      edit("x_XE1m", "<Mated_slots>sx_XE1e", "<Mated_slots>sx_SP11"),
      "mating-left-out",
    ],
    ["a name of 5,000 characters", edit("con_W89", "<Id>W89<", `<Id>${long}<`), "id-changed"],
    ["a name without letters", edit("con_W89", "<Id>W89<", "<Id>***<"), "id-changed"],
    ["a name of the language's own objects", edit("con_W89", "<Id>W89<", "<Id>__proto__<"), "id-changed"],
    ["a name used twice", edit("con_W89", "<Id>W89<", "<Id>W90<"), "id-changed"],
    ["a label of 5,000 characters", edit("x_B3_X", "Rail pressure sensor", long), "text-cut"],
  ])("%s", (_what, bytes, code) => {
    const result = readHarness(bytes);
    if (!result.ok) throw new Error(result.error.map((problem) => problem.message).join("\n"));
    expect(result.value.warnings.map((problem) => problem.code)).toContain(code);
    for (const build of result.value.document.builds) fit(result.value.document, build.id);
  });

  test("no number is made up for one that was left out", () => {
    const wires = (bytes: Uint8Array) => must(readDocument(bytes).wires.find((wire) => wire.id === "W89"));
    expect(wires(edit("gw_WH_RD_0_5", "u_mm2", "u_a")).crossSectionMm2).toBeUndefined();
    expect(wires(edit("wire_W89", "1060", "-1060")).lengthMm).toBeUndefined();
    expect(wires(edit("rt_W89", " sg_SG07", "")).route).toBeUndefined();
    const striped = wires(edit("gw_WH_RD_0_5", ">RD<", ">striped<"));
    expect([striped.colour, striped.note]).toEqual([undefined, "In the file: colour WH/striped"]);
  });
});

test("the text /NULL means that nothing is said", () => {
  const unnamed = readDocument(edit("x_B3_X", "Rail pressure sensor", "/NULL"));
  const plug = must(unnamed.connectors.find((connector) => connector.id === "B3.X"));
  expect([plug.label, plug.kind, plug.component]).toEqual(["B3.X", "inline", undefined]);
  const result = readHarness(edit("gw_WH_RD_0_5", ">RD<", ">/NULL<"));
  const wire = result.ok ? result.value.document.wires.find((each) => each.id === "W89") : undefined;
  expect([wire?.colour, wire?.note]).toEqual(["WH", "In the file: colour WH"]);
});

test("of several lengths the one for production counts, wherever it stands", () => {
  const length = (type: string, value: number) =>
    `<Length_information id="l-${type}"><Length_type>${type}</Length_type><Length_value id="v-${type}"><Unit_component>u_mm</Unit_component>` +
    `<Value_component>${value}</Value_component></Length_value></Length_information>`;
  const lengthOf = (lengths: string) => {
    const edited = edit("wire_W89", /<Length_information[\s\S]*<\/Length_information>/u, lengths);
    return must(readDocument(edited).wires.find((wire) => wire.id === "W89")).lengthMm;
  };
  expect(lengthOf(length("DMU", 990) + length("Production", 1060))).toBe(1060);
  expect(lengthOf(length("Other", 990) + length("DMU", 1050))).toBe(1050);
});

describe("references that go round in circles end", () => {
  test.each([
    ["a segment from a node to itself", edit("sg_SG07", "nd_N_B3", "nd_BP6")],
    [
      "an assembly that is a part of itself",
      edit("wire_W89", "<Wire_number>", "<Related_assembly>wire_W89</Related_assembly><Wire_number>"),
    ],
    [
      "nodes that name one another's parts",
      edit("nd_BP1", "</Node>", "<Referenced_components>nd_BP2 nd_BP1</Referenced_components></Node>"),
    ],
    ["a slot that mates itself", edit("x_XE1m", "sx_XE1e", "sx_XE1m")],
  ])("%s", (_what, bytes) => {
    const result = readHarness(bytes);
    expect(result.ok ? "read" : result.error.filter((each) => each.severity === "error").map((each) => each.code)).toBe(
      "read",
    );
  });
});

describe("what a contact point joins", () => {
  test("two wires in one terminal become a joint with a lead", () => {
    const both = edit("con_W90", "cp_B4_X_3", "cp_B3_X_3");
    const result = readHarness(both);
    if (!result.ok) throw new Error("refused");
    const { document, warnings } = result.value;
    expect(document.splices.map((splice) => splice.id)).toContain("B3.X.3-crimp");
    const ends = new Map(document.wires.map((wire) => [wire.id as string, wire.ends]));
    expect([ends.get("W89"), ends.get("W90"), ends.get("B3.X.3-crimp-lead")]).toEqual([
      ["A1.X1:36", "B3.X.3-crimp"],
      ["A1.X1:37", "B3.X.3-crimp"],
      ["B3.X.3-crimp", "B3.X:3"],
    ]);
    expect(warnings.map((problem) => problem.code)).toContain("wires-joined-in-terminal");
  });

  test("alternatives in one terminal share the cavity without a joint", () => {
    const options = text
      .replace("con_W123 con_W124", "con_W123 con_W124 con_W90")
      .replace(">clip1<", ">clip1 con_W89<");
    const edited = editInside(options, "con_W90", ["cp_B4_X_3", "cp_B3_X_3"]);
    const builds = [
      { id: "one", options: ["STANDARD"] },
      { id: "two", options: ["OPT-COLD"] },
    ];
    const document = readDocument(bytesOf(edited), { builds });
    const shared = document.wires.filter((wire) => wire.ends[1] === "B3.X:3");
    expect(shared.map((wire) => [wire.id, wire.when])).toEqual([
      ["W89", "STANDARD"],
      ["W90", "OPT-COLD"],
    ]);
  });

  test("a terminal across two cavities joins both", () => {
    const moved = text.replace("<Contact_point>cp_B4_X_4<", "<Contact_point>cp_B4_X_3<");
    const document = readDocument(bytesOf(editInside(moved, "cp_B4_X_3", ["kx_B4_X_3", "kx_B4_X_3 kx_B4_X_4"])));
    const leads = document.wires.filter((wire) => wire.ends[0] === "B4.X.3-crimp");
    expect(leads.map((wire) => wire.ends[1])).toEqual(["B4.X:3", "B4.X:4"]);
  });

  test("a wire from a splice to itself is left out", () => {
    const result = readHarness(edit("con_W72", "cp_B3_X_1", "cp_SP11"));
    expect(result.ok && result.value.warnings.map((problem) => problem.code)).toContain("source-wire-joins-itself");
  });

  test("a wire contacted on its way becomes one piece for each stretch", () => {
    const third = `<Extremities id="more"><Position_on_wire>0.25</Position_on_wire><Contact_point>cp_B6_X_3</Contact_point></Extremities></Connection>`;
    const document = readDocument(edit("con_W89", "</Connection>", third));
    const pieces = document.wires.filter((wire) => wire.id.startsWith("W89"));
    expect(pieces.map((wire) => [wire.id, wire.ends, wire.lengthMm])).toEqual([
      ["W89.1", ["A1.X1:36", "B6.X.3-crimp"], 265],
      ["W89.2", ["B6.X.3-crimp", "B3.X:3"], 795],
    ]);
  });

  test("a splice that is left with one wire keeps its free side", () => {
    const lone = ["W72", "W73", "W74"].reduce((all, id) => {
      return all.replace(new RegExp(` {4}<Connection id="con_${id}">[\\s\\S]*?</Connection>\\n`, "u"), "");
    }, text);
    const result = readHarness(bytesOf(lone));
    if (!result.ok) throw new Error("refused");
    expect(result.value.warnings.map((problem) => problem.code)).toContain("splice-with-one-wire");
    expect(result.value.document.wires.find((wire) => wire.id === "SP11-lead")?.ends).toEqual(["SP11", "SP11-end:1"]);
  });
});
