import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterEach, describe, expect, test } from "vitest";
import { demoText } from "../demo-harness/open-demo.ts";
import { root } from "../structure/support/project-files.ts";
import { misdeeds } from "./support/app.ts";
import { drop } from "./support/drop.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();

// The faults of these tests are planted; any other one is a misdeed as ever.
afterEach(() => {
  const others = misdeeds.filter((text) => !text.includes("planted"));
  misdeeds.splice(0, misdeeds.length, ...others);
});

const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { readonly version: string };

interface Case {
  readonly error: { readonly text: string; readonly stack?: readonly string[] };
  readonly asked: readonly string[];
  readonly files: readonly { readonly name: string; readonly text: string }[];
}

async function savedCase(page: Page): Promise<readonly [name: string, held: Case]> {
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save this case" }).click(),
  ]);
  return [download.suggestedFilename(), JSON.parse(readFileSync(await download.path(), "utf8")) as Case];
}

const notice = (page: Page): ReturnType<Page["getByRole"]> => page.getByRole("alert", { name: "The program failed" });

/** Every script of a worker with this name fails when it is asked something. */
async function plantInWorker(page: Page, name: string, script: string): Promise<void> {
  await page.route(new RegExp(`${name}-[^/]*\\.js`, "u"), (route) =>
    route.fulfill({ contentType: "text/javascript", body: script }),
  );
}

describe("a fault of the program", () => {
  test.each([
    ["thrown in a timer", 'setTimeout(() => { throw new Error("planted fault"); })'],
    ["of a promise nobody waits for", 'void Promise.reject(new Error("planted fault"))'],
  ])("%s is told, can be saved, and the page goes on", async (_, script) => {
    const page = await app.open("?build=base&ask=trace&point=B3");
    await page.evaluate((text) => void (0, eval)(text), script).catch(() => page.addScriptTag({ content: script }));
    await notice(page).waitFor();
    expect(await notice(page).textContent()).not.toMatch(/planted|Error|at .*js/u);
    const [name, held] = await savedCase(page);
    expect(name).toMatch(/^ohmward-case-\d{8}-\d{9}\.json$/u);
    expect(held).toMatchObject({
      format: "ohmward-case",
      program: version,
      files: [],
      error: { text: "Error: planted fault" },
    });
    expect(held.error.stack?.length).toBeGreaterThan(0);
    expect(held.asked.join(" ")).toContain("point=B3");
    await page.getByLabel("Include the harness data").check();
    const [, whole] = await savedCase(page);
    const demo = JSON.parse(demoText("firnlark-45.ohm.json")) as { readonly about: object };
    expect(JSON.parse(whole.files[0]?.text ?? "")).toMatchObject({ about: demo.about });
    await notice(page).getByRole("button", { name: "Close" }).click();
    expect(await notice(page).count()).toBe(0);
    expect(await page.isVisible(".canvas canvas")).toBe(true);
  });

  test("in drawing a part of the page leaves the rest, and the part can be shown again", async () => {
    const page = await app.open("?build=base");
    await page.evaluate(() => {
      /* eslint-disable @typescript-eslint/no-deprecated -- only an overload for elements that are no longer used is deprecated */
      const real = document.querySelector.bind(document);
      let isPlanted = true;
      document.querySelector = (found: string): Element | null => {
        if (found === "#app" && isPlanted) {
          isPlanted = false;
          throw new Error("planted fault");
        }
        return real(found);
      };
      /* eslint-enable @typescript-eslint/no-deprecated */
    });
    await page
      .getByRole("link", { name: /^Job/u })
      .or(page.getByRole("button", { name: /^Job/u }))
      .or(page.getByRole("tab", { name: /^Job/u }))
      .first()
      .click();
    await notice(page).waitFor();
    await notice(page).getByRole("button", { name: "Close" }).click();
    expect(await page.isVisible("h1")).toBe(true);
    await page.getByRole("button", { name: "Show it again" }).click();
    await page.waitForSelector("main.job");
  });

  test.each([
    ["throws", 'addEventListener("message", () => { throw new Error("planted fault"); });'],
    ["dies before it starts", 'throw new Error("planted fault");'],
  ])("in a worker that %s is told, and the next work goes well", async (_, script) => {
    const page = await app.open("?build=base");
    await plantInWorker(page, "machine-worker", script);
    await drop(page, ["list.csv", "Wire;From;To\nW1;A:1;B:1\n"]);
    await notice(page).waitFor();
    expect((await savedCase(page))[1].error.text).toContain("planted fault");
    await notice(page).getByRole("button", { name: "Close" }).click();
    await page.unroute(/machine-worker/u).catch(() => undefined);
    await page.unrouteAll();
    await drop(page, ["other.ohm.json", demoText("firnlark-45.ohm.json")]);
    await page.waitForSelector("[data-result]");
  });
});

test("characters that turn the writing are shown by their number", async () => {
  const demo = JSON.parse(demoText("firnlark-45.ohm.json")) as { about: { machine: string } };
  demo.about.machine = "Groomer \u202ex\u2066y";
  const page = await app.open("?build=base", { machine: JSON.stringify(demo) });
  expect(await page.textContent("h1")).toContain("Groomer \\u202ex\\u2066y");
  expect(await page.title()).toContain("\\u202e");
  expect(await page.evaluate(() => document.body.innerText)).not.toMatch(/[\u202a-\u202e\u2066-\u2069]/u);
});
