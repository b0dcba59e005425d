import { safeText } from "../../base/index.ts";

/**
 * Shows characters that cannot be seen but turn the direction of writing by their number, wherever a text of the page has them: a name that
 * reads as another one would send a person to the wrong pin. Fields keep what is typed.
 *
 * @param root What is looked after, now and whenever it changes.
 */
export function showHidden(root: Node): void {
  showIn(root);
  new MutationObserver((changes) => {
    for (const { type, target, addedNodes } of changes) {
      if (type === "characterData") showIn(target);
      else for (const node of addedNodes) showIn(node);
    }
  }).observe(root, { subtree: true, childList: true, characterData: true });
}

/** White space is left to the page, which shows it as a space. */
function showIn(node: Node): void {
  const walker = document.createTreeWalker(node, NodeFilter.SHOW_TEXT);
  for (let at: Node | null = walker.currentNode; at; at = walker.nextNode()) {
    if (at.nodeType !== Node.TEXT_NODE) continue;
    const text = at.nodeValue ?? "";
    const shown = text.replace(/\S+/gu, safeText);
    if (shown !== text) at.nodeValue = shown;
  }
}
