/** A point of a drawing: x to the right, y down, in drawing units. */
export interface XY {
  readonly x: number;
  readonly y: number;
}

/** The point a share of the way from one point to another; 0 is the first, 1 the second. */
export function along(from: XY, to: XY, share: number): XY {
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
}

/** How far two points are apart. */
export function distance(a: XY, b: XY): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}

/** The unit vector to the right hand of the direction from one point to another; zero where the two are one. */
export function rightHand(from: XY, to: XY): XY {
  const length = distance(from, to);
  return length === 0 ? { x: 0, y: 0 } : { x: -(to.y - from.y) / length, y: (to.x - from.x) / length };
}

/** A point moved along a vector. */
export function moved(point: XY, by: XY, times = 1): XY {
  return { x: point.x + by.x * times, y: point.y + by.y * times };
}
