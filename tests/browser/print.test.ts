import { expect, test } from "vitest";
import { useApp } from "./support/use-app.ts";

const app = useApp();

test.each([
  [
    "a short path",
    "between&from=A1.X1:36&to=B3",
    ["A1.X1:36", "W89", "WH/RD", "B3.X:3", "0.5 mm²", "P2", "Wire-entry view", "Mating-face view"],
  ],
  ["a long path", "between&from=S1.X:30&to=A1.X2:27&through=circuit", ["XC1:3", "VT/WH", "GY/VT"]],
  ["the circuits at the battery", "trace&point=G2%2B", ["G2+"]],
  ["test points", "probe&item=B3.X:3", ["P2", "P3"]],
  ["common wiring", "shared&bad=B3&bad=B4&good=B5", ["SP11"]],
  ["the effect of an open circuit", "without&item=A3.F3", ["A2"]],
])("the print of %s is one page with question, build, state and cautions", async (_name, ask, words) => {
  const page = await app.open(`?build=base&state=KOEO&ask=${ask}`, { colorScheme: "dark" });
  await page.waitForSelector("[data-sheet] h1", { state: "attached" });
  const pdf = await page.pdf({ preferCSSPageSize: true });
  expect(pdf.toString("latin1").match(/\/Type\s*\/Page\b/gu)).toHaveLength(1);
  await page.emulateMedia({ media: "print" });
  expect(await page.isVisible(".screen")).toBe(false);
  const sheet = await page.innerText("[data-sheet]");
  for (const word of [...words, "Base machine", "Key on, engine off", "maker's procedure"])
    expect(sheet).toContain(word);
  // Nothing may run over the edge of its column unseen.
  const cut = await page.evaluate(
    () =>
      [...document.querySelectorAll<HTMLElement>("[data-sheet] .columns > div, [data-sheet] footer")].filter(
        (part) => part.scrollHeight > part.clientHeight + 2,
      ).length,
  );
  expect(cut).toBe(0);
});
