import { describe, expect, test } from "vitest";
import { bytesOf, editInside } from "../xml/support/edit-text.ts";
import { demoFile, fit, must, readDocument, readHarness } from "../xml/support/harness-files.ts";

const text = new TextDecoder().decode(demoFile("firnlark-excerpt.vec"));
const edit = (id: string, from: string | RegExp, to: string): Uint8Array => bytesOf(editInside(text, id, [from, to]));

describe("a broken VEC file is refused", () => {
  test.each([
    ["another namespace", edit("", "ecad-if/2011/vec", "ecad-if/1999/vec"), "xml-namespace-unknown"],
    [
      "no harness in it",
      edit("", /Specification xsi:type="vec:CompositionSpecification"/u, 'Specification xsi:type="vec:Other"'),
      "source-no-harness",
    ],
    ["an id used twice", edit("end_W89_1", 'id="end_W89_1"', 'id="end_W89_0"'), "xml-duplicate-id"],
    ["a contact point of an end that is not there", edit("cp_B3_X_3", "end_W89_1", "end_none"), "source-end-unknown"],
    ["a contact point in a cavity that is not there", edit("cp_B3_X_3", "kx_B3_X_3", "kx_none"), "source-end-unknown"],
    ["two contacts in one cavity", edit("cp_B3_X_3", "kx_B3_X_3", "kx_B3_X_2"), "options-not-resolved"],
    ["a file cut in two", bytesOf(text.slice(0, text.length / 2)), "xml-not-well-formed"],
  ])("%s", (_what, bytes, code) => {
    const result = readHarness(bytes);
    const errors = result.ok ? [] : result.error.filter((problem) => problem.severity === "error");
    expect(errors.map((problem) => problem.code)).toContain(code);
  });
});

describe("a VEC file with a fault that does not matter everywhere is read with a warning", () => {
  test.each([
    ["a reference into nothing", edit("hr_B3_X", "k_B3_X_1", "k_none"), "xml-dangling-reference"],
    ["a value without unit", edit("core_0_5", "<UnitComponent>u_mm2</UnitComponent>", ""), "source-unit-unknown"],
    ["a size in metres", edit("core_0_5", "u_mm2", "u_mm"), "source-unit-unknown"],
    ["a number in words", edit("core_0_5", ">0.5</Value", ">half</Value"), "source-number-wrong"],
    ["a position that is no number", edit("end_W89_0", ">0<", ">start<"), "source-number-wrong"],
    ["a segment of negative length", edit("sg_SG07", ">150<", ">-150<"), "source-segment-left-out"],
    ["a segment from a node to itself", edit("sg_SG07", "nd_N_B3", "nd_BP6"), "source-segment-left-out"],
    ["a colour nobody knows", edit("in_WH_RD", ">RD<", ">RT<"), "source-colour-unknown"],
    [
      "a wire without contacts",
      bytesOf(
        text.replace(
          / *<WireMounting id="[^"]*">\s*<ReferencedWireEnd>end_W89_[01]<\/ReferencedWireEnd>\s*<\/WireMounting>\n/gu,
          "",
        ),
      ),
      "source-wire-without-ends",
    ],
    ["a name used twice", edit("o_B3_X", "<Identification>B3.X<", "<Identification>B4.X<"), "id-changed"],
    [
      "a name of the language's own objects",
      edit("o_B3_X", "<Identification>B3.X<", "<Identification>__proto__<"),
      "id-changed",
    ],
    [
      "a relay with other pins",
      bytesOf(text.replace(/(<PinComponent id="rp_85">\s*<Identification>)85/u, "$11")),
      "part-inside-unknown",
    ],
    ["a fuse without rating", bytesOf(text.replace(/<IMax[\s\S]*?<\/IMax>/u, "")), "fuse-rating-unknown"],
  ])("%s", (_what, bytes, code) => {
    const result = readHarness(bytes);
    if (!result.ok) throw new Error(result.error.map((problem) => problem.message).join("\n"));
    expect(result.value.warnings.map((problem) => problem.code)).toContain(code);
    for (const build of result.value.document.builds) fit(result.value.document, build.id);
  });

  test("an end without contact stays open and is a place of its own", () => {
    const open = text.replace(
      / *<WireMounting id="[^"]*">\s*<ReferencedWireEnd>end_W89_1<\/ReferencedWireEnd>\s*<\/WireMounting>\n/u,
      "",
    );
    const wire = must(readDocument(bytesOf(open)).wires.find((each) => each.id === "W89"));
    expect(wire.ends).toEqual(["A1.X1:36", "W89-end:1"]);
  });

  test("pins meet the cavities that the file says, not those of the same number", () => {
    const turned = text.replaceAll("<SecondTerminalRole>pt_A3_X1_5<", "<SecondTerminalRole>pt_A3_X1_8<");
    const document = readDocument(bytesOf(editInside(turned, "ee_A3", ["ep_K1_87 ep_X1_5", "ep_K1_87 ep_X1_8"])));
    const box = must(document.components.find((component) => component.id === "A3"));
    expect(box.elements.find((element) => element.id === "bar-K1-X1.5")?.between).toEqual(["#K1.87", "A3.X1:5"]);
  });

  test("connections that are there in one switching state only are no bars", () => {
    const states = `<States id="state"><Identification>on</Identification><SwitchedConnections>bar_1</SwitchedConnections></States>`;
    const named = text.replace(/<Connections id="[^"]*">(\s*<Identification>F9-K1)/u, '<Connections id="bar_1">$1');
    const result = readHarness(bytesOf(editInside(named, "ee_A3", ["</Specification>", `${states}</Specification>`])));
    if (!result.ok) throw new Error("refused");
    const box = must(result.value.document.components.find((component) => component.id === "A3"));
    expect(box.elements.map((element) => element.id)).not.toContain("bar-F9-K1");
    expect(result.value.warnings.map((problem) => problem.code)).toContain("part-inside-unknown");
  });
});
