import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/**
 * The themes in which a width is looked at: one each, so that both are looked at; with OHMWARD_WHOLE=1 both at every width.
 *
 * @param width The width of the page, in px.
 */
export function themesAt(width: number): readonly ("light" | "dark")[] {
  if (process.env["OHMWARD_WHOLE"] === "1") return ["light", "dark"];
  return width < 700 ? ["dark"] : ["light"];
}

/** The sizes at which pages are looked at every day, a wide and a narrow one; with OHMWARD_WHOLE=1 all of them. */
export function sizesOf<Size extends readonly [string, number, number]>(sizes: readonly Size[]): readonly Size[] {
  const isDaily = ([, width]: Size): boolean => width === 1280 || width < 700;
  return process.env["OHMWARD_WHOLE"] === "1" ? sizes : sizes.filter(isDaily);
}

/** What axe-core finds wrong, as rule and place. */
export async function violations(page: Page): Promise<readonly string[]> {
  // As an expression of the page's own debugger: the security policy of the page forbids scripts put into it.
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const run = (globalThis as unknown as { axe: { run: (where: unknown, how: unknown) => Promise<Found> } }).axe.run;
    interface Found {
      readonly violations: readonly {
        readonly id: string;
        readonly nodes: readonly { readonly target: unknown; readonly failureSummary?: string }[];
      }[];
    }
    const rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    const found = await run(document, { runOnly: { type: "tag", values: rules } });
    return found.violations.flatMap(({ id, nodes }) =>
      nodes.map(({ target, failureSummary }) => `${id}: ${String(target)} ${failureSummary?.split("\n")[1] ?? ""}`),
    );
  });
}

/** What is to be pressed and smaller than a gloved finger needs: 48 px each way. */
export async function tooSmall(page: Page): Promise<readonly string[]> {
  return page.evaluate(() =>
    [
      ...document.querySelectorAll<HTMLElement>(
        "button, select, summary, input[type=text], label:has(input[type=radio]), label:has(input[type=checkbox])",
      ),
    ]
      .filter((each) => each.checkVisibility() && each.closest("dialog:not([open])") === null)
      .map((each) => ({ box: each.getBoundingClientRect(), text: each.textContent.trim().slice(0, 20) }))
      .filter(({ box }) => box.width > 0 && (box.height < 47.5 || box.width < 47.5))
      .map(({ box, text }) => `too small: ${text} ${Math.round(box.width)}x${Math.round(box.height)}`),
  );
}

/** Everything that is wrong with how a page can be used: what axe-core finds, what is too small, what is too wide. */
export async function faultsOf(page: Page): Promise<readonly string[]> {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  return [...(await violations(page)), ...(await tooSmall(page)), ...(wide > 0 ? [`${wide} px too wide`] : [])];
}
