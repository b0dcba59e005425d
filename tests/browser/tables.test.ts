import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { ACCEPTED_KINDS, type AcceptedKind } from "ohmward/application";
import type { HarnessDocument } from "ohmward/harness-model";
import { importShape, type ShapeExpectation } from "../import-export/support/shape-facts.ts";
import { root } from "../structure/support/project-files.ts";
import { faultsOf, themesAt } from "./support/accessibility.ts";
import { drop } from "./support/drop.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();
const SHAPES = "tests/fixtures/table-shapes";
const BAD_CELL = "16-one-bad-cell.csv";
const MOST_QUESTIONS = 3;

async function untilRead(page: Page): Promise<void> {
  await page.waitForSelector("[data-result]");
}

async function bring(page: Page, name: string): Promise<void> {
  await drop(page, [name, readFileSync(join(root, SHAPES, name))]);
  await untilRead(page);
}

/** The document that the page opens and saves. */
async function acceptedDocument(page: Page): Promise<HarnessDocument> {
  await page.getByRole("button", { name: "Accept", exact: true }).click();
  await page.waitForSelector("[data-result]", { state: "detached" });
  await page.getByRole("button", { name: "Open, save" }).click();
  const [saved] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Harness document", exact: true }).click(),
  ]);
  return JSON.parse(readFileSync(await saved.path(), "utf8")) as HarnessDocument;
}

const wiresOf = ({ wires }: HarnessDocument): readonly unknown[] =>
  wires.map(({ id, ends, colour, crossSectionMm2, lengthMm }) => [id, ends, colour, crossSectionMm2, lengthMm]);

describe("a table as people keep it", () => {
  // The hardest every day; the others, which differ by their file format alone, in the long run.
  const daily = [
    "03-terminal-strips.csv",
    "05-blocks-side-by-side.xlsx",
    "06-stacked-tables.csv",
    "07-no-headings.xlsx",
  ];
  const others = ["04-conectores-es.xlsx", "08_J4-deck-light-box.csv", "13-markdown-tables.md", "15-open-document.ods"];
  const isWhole = process.env["OHMWARD_WHOLE"] === "1";

  test.each([...daily, "12-one-ended-wires.csv", ...(isWhole ? others : [])])(
    "%s comes in with at most three questions, and is the same as from the command line",
    async (name) => {
      const path = join(SHAPES, name);
      const text = readFileSync(join(root, path.replace(/\.[a-z]+$/u, ".expected.json")), "utf8");
      const expected = JSON.parse(text) as ShapeExpectation;
      const page = await app.open("?build=base");
      await bring(page, name);
      const counts = (await page.locator("[data-result] .counts").innerText()).split("\n").map((line) => line.trim());
      const wires = (expected.wiresBothEnds ?? 0) + (expected.wiresOneEnd ?? 0);
      expect(counts).toEqual(expect.arrayContaining([`${wires} wires`, `${expected.connectors ?? 0} connectors`]));

      const questions = page.locator("[data-questions] li");
      const asked = await questions.count();
      expect(asked).toBeLessThanOrEqual(MOST_QUESTIONS);
      for (let at = 0; at < asked; at++) {
        await questions.nth(at).getByRole("radio", { name: "Accept" }).check();
        await untilRead(page);
      }
      const accepted = Object.keys(ACCEPTED_KINDS) as AcceptedKind[];
      expect(wiresOf(await acceptedDocument(page))).toEqual(wiresOf(importShape(path, accepted).document));
    },
  );

  test("an answer that is taken back leaves the table as it was", async () => {
    const page = await app.open("?build=base");
    await bring(page, "03-terminal-strips.csv");
    const question = page.locator("[data-questions] li");
    await question.getByRole("radio", { name: "Accept" }).check();
    await untilRead(page);
    await question.getByRole("radio", { name: "Leave as it is" }).check();
    await untilRead(page);
    expect(wiresOf(await acceptedDocument(page))).toEqual(
      wiresOf(importShape(join(SHAPES, "03-terminal-strips.csv")).document),
    );
  });

  test("pasted rows are a table, and a changed meaning of a column holds for all tables with its headings", async () => {
    const page = await app.open("?build=base");
    await page.getByRole("button", { name: "Open, save" }).click();
    const rows = "X1 Tray,,\nPin,Signal,Ref\n1,B+,RD\n2,B-,BK\n,,\nX2 Dash,,\nPin,Signal,Ref\n1,B+,RD\n2,KEY,VT\n";
    await page.getByLabel("or paste rows of a table here").fill(rows);
    await page.getByRole("button", { name: "Read the rows" }).click();
    await untilRead(page);
    await page.getByLabel("Meaning of Ref").selectOption("note");
    await page.locator("[data-table]").getByText("As you set it").waitFor();
    await untilRead(page);
    const { connectors, wires } = await acceptedDocument(page);
    expect(connectors.map(({ id }) => id)).toEqual(["X1", "X2"]);
    expect(wires.map(({ colour }) => colour)).toEqual(wires.map(() => undefined));
  });

  test("charts in several files become one connector each where that is accepted", async () => {
    const page = await app.open("?build=base");
    const chart = (row: string): string => `Connector,Pin,Signal,Colour\n${row}\nX2,9,SPARE9,BK\n`;
    await drop(page, ["one.csv", chart("X1,1,FEED,RD")], ["two.csv", chart("X1,2,RETURN,BN")]);
    await page.locator("[data-questions] li", { hasText: "X1" }).getByRole("radio", { name: "Accept" }).check();
    await untilRead(page);
    const { connectors } = await acceptedDocument(page);
    expect(connectors.map(({ id }) => id).toSorted()).toEqual(["X1", "X2"]);
  });
});

describe("a broken row", () => {
  test("is repaired in place by keyboard, undone, done again, and its repairs are kept beside the file", async () => {
    const page = await app.open("?build=base");
    await bring(page, BAD_CELL);
    const rows = page.locator("[data-faulty-rows]");
    await rows.getByText("1 row not read in full").waitFor();
    const cell = rows.getByLabel("Length (mm), row 4");
    expect([await cell.inputValue(), await cell.getAttribute("aria-invalid")]).toEqual(["8oo", "true"]);
    await cell.fill("850");
    await cell.press("Enter");
    await rows.getByText("All rows read").waitFor();
    expect(await rows.evaluate((node) => node.contains(document.activeElement))).toBe(true);

    await rows.getByRole("button", { name: "Undo" }).click();
    await rows.getByText("1 row not read in full").waitFor();
    await rows.getByRole("button", { name: "Redo" }).click();
    await rows.getByText("All rows read").waitFor();
    const [saved] = await Promise.all([
      page.waitForEvent("download"),
      rows.getByRole("button", { name: "Save repairs" }).click(),
    ]);
    expect(saved.suggestedFilename()).toBe(`${BAD_CELL}.repairs.json`);
    await untilRead(page);
    const { wires } = await acceptedDocument(page);
    expect(wires.find(({ id }) => id === "K3")?.lengthMm).toBe(850);

    // The file and its repairs, dropped together, are as they were.
    await drop(
      page,
      [BAD_CELL, readFileSync(join(root, SHAPES, BAD_CELL))],
      [saved.suggestedFilename(), readFileSync(await saved.path())],
    );
    await rows.getByText("All rows read").waitFor();
  });

  test("Enter goes on to the next faulty cell, a proposal is used, a row is left out", async () => {
    const page = await app.open("?build=base");
    await drop(page, ["list.csv", "Wire,From,To,Length mm,Size mm2\nW1,X1:1,X2:1,8oo,x\nW2,X1:2,X2:2,9x,1\nW3,,,,\n"]);
    await untilRead(page);
    const rows = page.locator("[data-faulty-rows]");
    const first = rows.getByLabel("Length mm, row 2");
    await first.focus();
    await first.press("Enter");
    const label = await page.evaluate(() => document.activeElement?.closest("label")?.textContent);
    expect(label).toContain("Size mm2, row 2");
    await rows.getByRole("button", { name: "Use 800" }).click();
    await untilRead(page);
    await rows.getByRole("button", { name: "Leave out row 4" }).click();
    await untilRead(page);
    await rows.getByText("2 rows not read in full").waitFor();
    const { wires, about } = await acceptedDocument(page);
    expect(wires.map(({ id, lengthMm }) => [id, lengthMm])).toEqual([
      ["W1", 800],
      ["W2", undefined],
    ]);
    expect(JSON.stringify(about)).toContain("Row 4 left out: W3");
  });
});

describe.each([
  ["tablet", 1280, 800],
  ...(process.env["OHMWARD_WHOLE"] === "1" ? ([["phone", 390, 844]] as const) : []),
  ["small phone", 320, 640],
] as const)("on a %s", (_name, width, height) => {
  test.each(themesAt(width))("questions and rows to repair are without fault to axe-core, %s", async (colorScheme) => {
    const page = await app.open("?build=base", { viewport: { width, height }, colorScheme, reducedMotion: "reduce" });
    await bring(page, BAD_CELL);
    const found = [...(await faultsOf(page))];
    await page.getByLabel("Length (mm), row 4").fill("800");
    await page.getByLabel("Length (mm), row 4").press("Enter");
    await page.getByText("All rows read").waitFor();
    await untilRead(page);
    found.push(...(await faultsOf(page)));
    await page.getByRole("button", { name: "Discard" }).click();
    await bring(page, "05-blocks-side-by-side.xlsx");
    await page.locator("[data-questions]").getByRole("radio", { name: "Accept" }).first().check();
    await page.locator("option", { hasText: "mm² if none is given" }).first().waitFor({ state: "attached" });
    await untilRead(page);
    found.push(...(await faultsOf(page)));
    expect(found).toEqual([]);
  });
});
