import { readFileSync } from "node:fs";
import type { Download, Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { demoText } from "../demo-harness/open-demo.ts";
import { faultsOf, themesAt } from "./support/accessibility.ts";
import { drop } from "./support/drop.ts";
import { lookFor } from "./support/app.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();

/** A wire list as spreadsheets of many countries write it; the colour in row 3 is none, and "Ref" says nothing. */
const LIST = [
  "Leitung;Von;Nach;Farbe;Querschnitt [mm²];Länge [mm];Ref",
  "W1;K1.A:1;B7.X:1;RD;0,75;1200;FEED",
  "W2;K1.A:2;B7.X:2;ZZ;0,5;800;RETURN",
  'W3;K1.A:3;B7.X:3;BU/WH;1,5;950;"SIGNAL\nof the pump"',
  "",
].join("\r\n");

const FRONT =
  "Wire;From;To;Colour;Signal\nW1;A1.X:1;TX.1:1;RD;FEED\nW2;A1.X:2;TX.1:2;BN;RETURN\nW3;A1.X:3;TX.1:3;WH;SPEED\n";
const REAR =
  "Wire;From;To;Colour;Signal\nW11;TX.2:1;M9.X:1;RD;FEED\nW12;TX.2:2;M9.X:2;BN;RETURN\nW13;TX.2:3;M9.X:3;WH;SPEED\n";

const START = "?build=base&state=KOEO&ask=between&from=A1.X1:36&to=B3";

async function untilRead(page: Page): Promise<void> {
  await page.waitForSelector("[data-result]");
}

async function accept(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Accept" }).click();
  await page.waitForSelector(".canvas canvas");
}

/** The page of a question about the machine that is open now; the address has to be the page's own, since nothing is stored. */
async function askPath(page: Page, from: string, to: string): Promise<string> {
  const card = page.locator(".choices button").first();
  if (await card.isVisible()) await card.click();
  await lookFor(page, from, "Path to…");
  await page.getByRole("combobox", { name: "second point" }).fill(to);
  await page.keyboard.press("Escape");
  await page.getByRole("button", { name: "Ask", exact: true }).click();
  await page.waitForSelector(".strip");
  return (await page.textContent(".strip")) ?? "";
}

describe("a table", () => {
  test("is dropped, mapped, shown with its problems, accepted and asked", async () => {
    const page = await app.open(START);
    await drop(page, ["list.csv", LIST]);
    await untilRead(page);
    const table = page.locator("[data-table]");
    expect(await table.getByLabel("Column separator").inputValue()).toBe(";");
    expect(await table.getByLabel("Decimal sign").inputValue()).toBe("comma");
    expect(await table.getByLabel("Layout").inputValue()).toBe("wire");
    const rows = table.getByRole("region", { name: "First rows of list.csv as read" });
    expect((await rows.locator("tbody tr").first().innerText()).split(/\s+/u)).toEqual(
      expect.arrayContaining(["2", "W1", "K1.A:1", "B7.X:1", "RD", "0.75", "1200"]),
    );

    const problems = page.locator("[data-problems]");
    const colour = problems.locator("li", { hasText: "ZZ" }).first();
    expect(await colour.innerText()).toMatch(/list\.csv · row 3 · column Farbe/u);

    expect(await table.getByLabel("Meaning of Ref").inputValue()).toBe("");
    await table.getByLabel("Meaning of Ref").selectOption("net");
    await rows.getByText("FEED").waitFor();
    await page.locator("[data-table]").getByText("As you set it").waitFor();

    await untilRead(page);
    expect(await page.textContent("h1")).toContain("Firnlark");
    await page.getByLabel(/Name of the machine/u).fill("Pump test bench");
    await accept(page);
    expect(await page.textContent("h1")).toBe("Pump test bench");
    const strip = await askPath(page, "K1.A:1", "B7.X:1");
    expect(strip).toContain("W1");
    expect(strip).toContain("0.75 mm²");

    // The same headings again: what was confirmed is remembered.
    await drop(page, ["again.csv", LIST]);
    await page.getByText("As you confirmed for these headings before").waitFor();
    expect(await page.getByLabel("Meaning of Ref").inputValue()).toBe("net");
    await untilRead(page);
    await page.getByRole("button", { name: "Discard" }).click();
    expect(await page.locator(".strip").isVisible()).toBe(true);
  });

  test("with colour codes of its own is read once each is said", async () => {
    const page = await app.open("?build=base");
    await drop(page, ["codes.csv", "Wire,From,To,Colour\nW1,K1.A:1,B7.X:1,B/W\n"]);
    await untilRead(page);
    const table = page.locator("[data-table]");
    await table.getByText("Not read: B/W (1)").waitFor();
    await table.getByLabel("Colour codes of this file").selectOption("codes");
    await table.getByLabel("Colour of the code B", { exact: true }).selectOption("BU");
    await table.getByLabel("Colour of the code W", { exact: true }).selectOption("WH");
    await table.getByRole("region", { name: "First rows of codes.csv as read" }).getByText("BU/WH").waitFor();
  });

  test("whose headings are not known waits for the meaning of its columns", async () => {
    const page = await app.open("?build=base");
    await drop(page, ["bare.csv", "Zyx,Qwe,Rty\nfoo,bar,baz\nqux,corge,grault\n"]);
    await untilRead(page);
    expect(await page.getByRole("button", { name: "Accept" }).isDisabled()).toBe(true);
    await page.getByText("These headings are not known").waitFor();
    await page.getByLabel("Meaning of Qwe").selectOption("from");
    await page.getByLabel("Meaning of Rty").selectOption("to");
    await page.locator("[data-result] li", { hasText: "2 wires" }).first().waitFor();
    expect(await page.getByRole("button", { name: "Accept" }).isEnabled()).toBe(true);
  });
});

test("a broken workbook says why, and the open machine stays", async () => {
  const page = await app.open(START);
  await drop(page, ["broken.xlsx", "PK\u0003\u0004 this is no archive"]);
  await untilRead(page);
  expect(await page.textContent("[data-result]")).toContain("broken.xlsx was not opened");
  const problem = page.locator("[data-problems] li").first();
  expect(await problem.innerText()).toMatch(/broken\.xlsx/u);
  expect((await problem.locator(".hint").innerText()).length).toBeGreaterThan(5);
  expect(await page.getByRole("button", { name: "Accept" }).isDisabled()).toBe(true);
  const [list] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save as CSV" }).click(),
  ]);
  expect(list.suggestedFilename()).toBe("problems.csv");
  expect(textOf(await contentOf(list))).toMatch(/^\uFEFFSeverity,Code,File/u);
  await page.getByRole("button", { name: "Discard" }).click();
  expect(await page.isVisible(".strip")).toBe(true);
  expect(await page.textContent("h1")).toContain("Firnlark");
});

test("a KBL file is read, its builds are counted, and it opens once accepted", async () => {
  const page = await app.open("?build=base");
  await drop(page, ["firnlark-excerpt.kbl", demoText("firnlark-excerpt.kbl")]);
  await untilRead(page);
  const counts = await page.locator("[data-result] li").allInnerTexts();
  const document = demoText("firnlark-excerpt.kbl");
  // Single conductors of the file and those of its cables.
  const wires = (document.match(/<General_wire_occurrence[^>]*xsi:type="[^"]*Wire_occurrence"/gu) ?? []).length;
  const cores = (document.match(/<Core_occurrence/gu) ?? []).length;
  expect(wires).toBeGreaterThan(0);
  expect(counts.map((text) => text.trim())).toContain(`${wires + cores} wires`);
  await accept(page);
  expect(await page.locator("header .file").textContent()).toContain("firnlark-excerpt.kbl");
});

test("builds are made of options of a KBL file, in place of those it names", async () => {
  const page = await app.open("?build=base");
  await drop(page, ["firnlark-excerpt.kbl", demoText("firnlark-excerpt.kbl")]);
  await untilRead(page);
  const card = page.locator("[data-builds]");
  const options = await card.locator(".known button").allInnerTexts();
  expect(options.length).toBeGreaterThan(0);
  await card.getByLabel("Name of the build").fill("plain");
  await card.getByRole("button", { name: "Make this build" }).click();
  await page.locator("[data-result]", { hasText: "One build: plain" }).waitFor();
  // The options that the file was seen to have stay on offer.
  expect(await card.locator(".known button").allInnerTexts()).toEqual(options);
  await card.getByLabel("Name of the build").fill("all of them");
  for (const option of options) await card.getByRole("button", { name: option, exact: true }).click();
  await card.getByRole("button", { name: "Make this build" }).click();
  await page.locator("[data-result]", { hasText: "2 builds: plain, all of them" }).waitFor();
  expect(await faultsOf(page)).toEqual([]);
  await accept(page);
  expect(await page.locator("header select").first().locator("option:not([disabled])").allInnerTexts()).toEqual([
    "plain",
    "all of them",
  ]);
});

test("connectors of two files are joined only as ticked, and a path leads from one file into the other", async () => {
  const page = await app.open("?build=base");
  await drop(page, ["front.csv", FRONT], ["rear.csv", REAR]);
  await page.waitForSelector("[data-pairs]");
  await untilRead(page);
  const pair = page.locator("[data-pairs] label", { hasText: /TX\.1.*TX\.2/su });
  expect(await pair.getByRole("checkbox").isChecked()).toBe(false);
  await pair.getByRole("checkbox").check();
  await untilRead(page);
  await accept(page);
  const strip = await askPath(page, "A1.X:1", "M9.X:1");
  expect(strip).toMatch(/W1.*W11/su);
});

test("a long read can be cancelled; the open machine and its answer stay", async () => {
  const page = await app.open(START);
  const rows = Array.from(
    { length: 60_000 },
    (_, at) => `W${at},K${at % 900}.A:${at},B${at % 700}.X:${at},RD,0.5,${at}`,
  );
  await drop(page, ["long.csv", `Wire,From,To,Colour,Size mm2,Length mm\n${rows.join("\n")}\n`]);
  const work = page.locator("[data-work]");
  await work.waitFor();
  expect(await work.getByRole("progressbar").count()).toBe(1);
  await work.getByRole("button", { name: "Cancel" }).click();
  await untilRead(page);
  expect(await page.textContent("main")).toContain("reading stopped");
  expect(await page.getByRole("button", { name: "Accept" }).isDisabled()).toBe(true);
  await page.getByRole("button", { name: "Discard" }).click();
  expect(await page.textContent("h1")).toContain("Firnlark");
  expect(await page.isVisible(".strip")).toBe(true);
});

async function contentOf(download: Download): Promise<Buffer> {
  return readFileSync(await download.path());
}

function textOf(bytes: Buffer): string {
  return bytes.toString("utf8");
}

const PNG = [0x89, 0x50, 0x4e, 0x47];

describe("saving", () => {
  test.each([
    ["Harness document", /^tarnwick.*\.ohm\.json$/u, (bytes: Buffer) => textOf(bytes).startsWith("{")],
    ["Wire list, CSV", /-wires\.csv$/u, (bytes: Buffer) => textOf(bytes).startsWith("\uFEFFWire,From")],
    ["Pin table, CSV", /-pins\.csv$/u, (bytes: Buffer) => /^\uFEFF(?:Type,)?Component,/u.test(textOf(bytes))],
    ["Wire list and pin table, XLSX", /-tables\.xlsx$/u, (bytes: Buffer) => textOf(bytes).startsWith("PK")],
    ["Full set of tables, XLSX", /-set\.xlsx$/u, (bytes: Buffer) => textOf(bytes).startsWith("PK")],
    ["Graph of one build, GraphML", /-base\.graphml$/u, (bytes: Buffer) => textOf(bytes).includes("<graphml")],
    ["Drawing of one build, SVG", /-base\.svg$/u, (bytes: Buffer) => /^<\?xml[^>]*>\s*<svg/u.test(textOf(bytes))],
    ["Drawing of one build, PNG", /-base\.png$/u, (bytes: Buffer) => PNG.every((byte, at) => bytes[at] === byte)],
  ] as const)("%s has the right name and start", async (title, name, isRight) => {
    const page = await app.open("?build=base");
    await page.getByRole("button", { name: "Open, save" }).click();
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: title, exact: true }).click(),
    ]);
    expect(download.suggestedFilename()).toMatch(name);
    const bytes = await contentOf(download);
    expect(isRight(bytes), textOf(bytes.subarray(0, 80))).toBe(true);
    expect(bytes.length).toBeGreaterThan(500);
    await page.context().close();
  });

  test("a table to fill in is read again without an error", async () => {
    const page = await app.open("?build=base");
    await page.getByRole("button", { name: "Open, save" }).click();
    for (const title of ["One row per wire", "One row per pin"]) {
      const [download] = await Promise.all([
        page.waitForEvent("download"),
        page.getByRole("button", { name: title }).click(),
      ]);
      await drop(page, [download.suggestedFilename(), await contentOf(download)]);
      await untilRead(page);
      expect(await page.getByRole("button", { name: "Accept" }).isEnabled()).toBe(true);
      await page.getByRole("button", { name: "Discard" }).click();
      await page.getByRole("button", { name: "Open, save" }).click();
    }
  });
});

test("going back in the browser leads out of the page, going forward into it", async () => {
  const page = await app.open(START);
  await page.getByRole("button", { name: "Open, save" }).click();
  await page.waitForSelector("[data-save]");
  await page.goBack();
  await page.waitForSelector(".strip");
  await page.goForward();
  await page.waitForSelector("[data-save]");
});

describe.each([
  ["tablet", 1280, 800],
  ["phone", 390, 844],
] as const)("on a %s", (_name, width, height) => {
  test.each(themesAt(width))(
    "every part is without fault to axe-core, fits and suits gloves, %s",
    async (colorScheme) => {
      const page = await app.open(START, { viewport: { width, height }, colorScheme, reducedMotion: "reduce" });
      await page.getByRole("button", { name: "Open, save" }).click();
      const found = [...(await faultsOf(page))];
      await drop(page, ["list.csv", LIST]);
      await untilRead(page);
      found.push(...(await faultsOf(page)));
      await page.getByLabel("Colour codes of this file").selectOption("codes");
      await page.getByLabel("Colour of the code RD").waitFor();
      await untilRead(page);
      found.push(...(await faultsOf(page)));
      await page.getByRole("button", { name: "Discard" }).click();
      await drop(page, ["front.csv", FRONT], ["rear.csv", REAR]);
      await page.waitForSelector("[data-pairs]");
      await untilRead(page);
      found.push(...(await faultsOf(page)));
      expect(found).toEqual([]);
    },
  );
});

test("what changed against the open machine is told before a new revision is accepted", async () => {
  const page = await app.open("?build=base&state=KOEO");
  await page.getByRole("button", { name: "Open, save" }).click();
  const changed = demoText("firnlark-45.ohm.json").replace('"id": "W89"', '"id": "W89-1"');
  const recoloured = changed.replace(/("id": "W89-1"[^}]*?"colour": ")WH\/RD/u, "$1WH/GN");
  expect(recoloured).not.toBe(changed);
  await drop(page, ["revision-2.ohm.json", recoloured]);
  await untilRead(page);
  const card = page.locator("[data-changed]");
  await card.getByRole("button", { name: /^What changed against Tarnwick/u }).click();
  await card.locator("details summary").first().waitFor();
  await card.locator("details summary").first().click();
  const text = await card.innerText();
  expect(text).toMatch(/2 changes|1 change/u);
  expect(text).toMatch(/W89-1 \(W89 before\)/u);
  expect(text).toContain("WH/GN");
  expect(await faultsOf(page)).toEqual([]);
});
