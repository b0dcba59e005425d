/** The colours of the drawing in the theme of the page, as texts a canvas understands. */
export interface Palette {
  readonly paper: string;
  readonly ink: string;
  readonly quiet: string;
  readonly bundle: string;
  readonly zone: string;
  readonly zoneInk: string;
  readonly item: string;
  readonly accent: string;
  readonly unknownWire: string;
}

const TOKENS: Readonly<Record<keyof Palette, string>> = {
  paper: "--sheet",
  ink: "--ink",
  quiet: "--ink-quiet",
  bundle: "--bundle",
  zone: "--zone",
  zoneInk: "--zone-ink",
  item: "--panel",
  accent: "--pick",
  unknownWire: "--ink-quiet",
};

/** Reads the palette from the style sheet, as it applies to an element. */
export function readPalette(element: HTMLElement): Palette {
  const probe = document.createElement("span");
  element.append(probe);
  const read = (token: string): string => {
    probe.style.color = `var(${token})`;
    return getComputedStyle(probe).color;
  };
  const { paper, ink, quiet, bundle, zone, zoneInk, item, accent, unknownWire } = TOKENS;
  const palette = {
    paper: read(paper),
    ink: read(ink),
    quiet: read(quiet),
    bundle: read(bundle),
    zone: read(zone),
    zoneInk: read(zoneInk),
    item: read(item),
    accent: read(accent),
    unknownWire: read(unknownWire),
  };
  probe.remove();
  return palette;
}
