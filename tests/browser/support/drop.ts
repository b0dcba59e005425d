import type { Page } from "playwright-core";

/** A file to be dropped: its name and what is in it. */
export type Dropped = readonly [name: string, content: string | Uint8Array];

/** Drops files on the page. */
export async function drop(page: Page, ...files: readonly Dropped[]): Promise<void> {
  const packed = files.map(([name, content]) => [name, Buffer.from(content).toString("base64")] as const);
  const data = await page.evaluateHandle((all) => {
    const transfer = new DataTransfer();
    for (const [name, base64] of all) {
      const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
      transfer.items.add(new File([bytes], name));
    }
    return transfer;
  }, packed);
  await page.dispatchEvent("body", "dragover", { dataTransfer: data });
  await page.dispatchEvent("body", "drop", { dataTransfer: data });
}
