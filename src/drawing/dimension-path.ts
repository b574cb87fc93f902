// A dimension's lines and arrows as SVG path text.

import type { Arrow, Line, Point } from "./dimension.ts";

export const linesPath = (lines: readonly Line[]): string =>
  lines.map(({ from, to }) => `M${at(from)}L${at(to)}`).join("");

export const arrowPath = (corners: Arrow): string => `M${corners.map(at).join("L")}Z`;

const at = ({ x, y }: Point): string => `${x.toFixed(1)} ${y.toFixed(1)}`;
