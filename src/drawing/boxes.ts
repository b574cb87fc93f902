// Upright rectangles: whether texts stand on each other.

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Area that two boxes share. */
export function overlap(a: Box, b: Box): number {
  const width = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const height = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return width > 0 && height > 0 ? width * height : 0;
}

/** Area of `inner` that lies outside `outer`. */
export function spill(inner: Box, outer: Box): number {
  return area(inner) - overlap(inner, outer);
}

export function shifted(box: Box, x: number, y = 0): Box {
  return { left: box.left + x, top: box.top + y, right: box.right + x, bottom: box.bottom + y };
}

const area = (box: Box): number => (box.right - box.left) * (box.bottom - box.top);
