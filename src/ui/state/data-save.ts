import { encodeUtf8 } from "../../application/index.ts";

/** Hands bytes to the person as a file to be kept. */
export function saveBytes(name: string, mediaType: string, bytes: Uint8Array): void {
  saveBlob(name, new Blob([Uint8Array.from(bytes)], { type: mediaType }));
}

/** Hands text to the person as a file to be kept, in UTF-8. */
export function saveText(name: string, mediaType: string, text: string): void {
  saveBytes(name, mediaType, encodeUtf8(text));
}

/** Hands a picture or other data to the person as a file to be kept. */
export function saveBlob(name: string, blob: Blob): void {
  const address = URL.createObjectURL(blob);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  // The browser fetches the data after this has run.
  window.setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** Longest edge of a picture, in points: legible on a sheet of A3, and within what browsers can draw. */
const LONGEST_EDGE = 4000;

/**
 * Draws an SVG as a PNG picture.
 *
 * @param svg The bytes of the drawing.
 * @returns The picture; undefined where the browser cannot make it.
 */
export async function pngOfSvg(svg: Uint8Array): Promise<Blob | undefined> {
  const address = URL.createObjectURL(new Blob([Uint8Array.from(svg)], { type: "image/svg+xml" }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const [width, height] = [image.naturalWidth || 1200, image.naturalHeight || 800];
    const scale = LONGEST_EDGE / Math.max(width, height);
    const canvas = document.createElement("canvas");
    canvas.width = Math.round(width * scale);
    canvas.height = Math.round(height * scale);
    canvas.getContext("2d")?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((done) => canvas.toBlob((blob) => done(blob ?? undefined), "image/png"));
  } catch {
    return undefined;
  } finally {
    URL.revokeObjectURL(address);
  }
}
