import { describe, expect, test } from "vitest";
import { demoText } from "../demo-harness/open-demo.ts";
import { drop } from "./support/drop.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();

/** The demo machine as plain data, to be changed. */
function demo(): Record<string, unknown> & {
  about: Record<string, unknown>;
  wires: Record<string, unknown>[];
  connectors: Record<string, unknown>[];
} {
  return JSON.parse(demoText("firnlark-45.ohm.json")) as ReturnType<typeof demo>;
}

describe("files", () => {
  test("a dropped file is opened in place of the demo once it is accepted", async () => {
    const page = await app.open("?build=base&ask=trace&point=B3");
    const other = demo();
    other.about["machine"] = "Another machine";
    await drop(page, ["other.ohm.json", JSON.stringify(other)]);
    await page.waitForSelector("[data-result]");
    expect(await page.textContent("h1")).toContain("Firnlark");
    await page.getByRole("button", { name: "Accept" }).click();
    await page.waitForSelector("h1:has-text('Another machine')");
    expect(await page.isVisible("text=Which variant is this machine?")).toBe(true);
    expect(new URL(page.url()).search).toMatch(/^\?machine=[0-9a-f]{12}$/u);
  });

  test.each([
    ["not JSON", '{ "format": ', /line 1/u],
    ["another format", '{"format":"something"}', /format/u],
    ["a wire that leads nowhere", "", /W89|ends/u],
  ])(
    "a broken file is refused with place, text and hint, and the open machine stays: %s",
    async (_name, given, place) => {
      const page = await app.open("?build=base&ask=between&from=A1.X1:36&to=B3");
      const broken = demo();
      for (const wire of broken.wires) if (wire["id"] === "W89") wire["ends"] = ["A1.X1:99", "B3.X:3"];
      await drop(page, ["broken.ohm.json", given === "" ? JSON.stringify(broken) : given]);
      await page.waitForSelector("[data-result]");
      expect(await page.textContent("[data-result]")).toContain("broken.ohm.json was not opened");
      const found = page.locator("[data-problems] li").first();
      expect(await found.innerText()).toMatch(place);
      expect((await found.locator(".hint").innerText()).length).toBeGreaterThan(5);
      expect(await page.textContent("h1")).toContain("Firnlark");
      await page.getByRole("button", { name: "Discard" }).click();
      expect(await page.isVisible(".strip")).toBe(true);
    },
  );

  test("the machine beside the page is opened before the demo", async () => {
    const other = demo();
    other.about["machine"] = "Served machine";
    const page = await app.open("?build=base", { machine: JSON.stringify(other) });
    expect(await page.textContent("h1")).toBe("Served machine");
  });

  test("hostile labels stay text", async () => {
    const hostile = demo();
    const label = `<img src=x onerror="document.title='taken'"><script>document.title='taken'</script>"'>&lt;`;
    hostile.about["machine"] = label;
    for (const connector of hostile.connectors) connector["label"] = label;
    for (const wire of hostile.wires) wire["note"] = label;
    const page = await app.open("?build=base&state=KOEO&ask=between&from=A1.X1:36&to=B3&selected=contact%20A1.X1:36", {
      machine: JSON.stringify(hostile),
    });
    await page.waitForSelector(".strip");
    expect(await page.textContent("h1")).toBe(label);
    expect(await page.textContent(".strip")).toContain("<img src=x");
    expect(await page.locator("img").count()).toBe(0);
    expect(await page.title()).toContain("<img src=x");
    await page.emulateMedia({ media: "print" });
    expect(await page.textContent("[data-sheet]")).toContain("<img src=x");
  });
});
