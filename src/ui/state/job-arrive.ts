/**
 * Takes people who work with keys or listen to the page to what is new, and brings it into view if it has scrolled out above. Used on the
 * heading of what replaced something that had the focus.
 *
 * @param heading The heading.
 */
export function arrive(heading: HTMLElement): void {
  const { activeElement } = document;
  if (activeElement === null || activeElement === document.body) heading.focus({ preventScroll: true });
  if (heading.getBoundingClientRect().top < 90) heading.scrollIntoView({ block: "start" });
}
