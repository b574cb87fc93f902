// The operating curve: how often the catalyst is pointed at, and told away, against the grams that it really holds.

import { proportionBounds } from "../../src/signal/numbers/proportion.ts";
import { halfOf, halvesOf } from "./rates.ts";
import type { Row } from "./verdict.ts";

/** g: ends of the classes. 0.08 and 0.5 are where dead ends and sound begins. */
const ends = [0.02, 0.04, 0.08, 0.14, 0.26, 0.5, 0.9, 1.6, 3.01];
const [width, height, left, top] = [330, 190, 46, 26];

interface Class {
  readonly from: number;
  readonly to: number;
  readonly rows: readonly Row[];
}

/** @returns an SVG picture: a panel for each half and recorder; bars are 95 % bounds. Only fit recordings without a mimic. */
export function operatingCurve(rows: readonly Row[]): string {
  const plain = rows.filter(({ kind, fit }) => fit && (kind === "healthy" || kind === "worn" || kind === "dead"));
  const shown = halvesOf(rows);
  const panels = shown.flatMap((half, column) =>
    (["scope", "log"] as const).map((recorder, line) => {
      const here = plain.filter((row) => halfOf(row) === half && row.recorder === recorder);
      const [x, y] = [column * (width + 70) + left, line * (height + 76) + top + 20];
      return `<g transform="translate(${x} ${y})">${panel(here, `${half}, ${recorder}s`)}</g>`;
    }),
  );
  const [w, h] = [shown.length * (width + 70) + 20, 2 * (height + 76) + 60];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${w} ${h}" font-family="sans-serif" font-size="11">`,
    `<rect width="${w}" height="${h}" fill="#fff"/>`,
    `<text x="${left}" y="20" font-size="14">Share of fit recordings: catalyst pointed at (filled, solid) and told away (open, dashed), against the store in g</text>`,
    ...panels,
    "</svg>\n",
  ].join("\n");
}

const across = (grams: number) => (width * Math.log(grams / ends[0]!)) / Math.log(ends.at(-1)! / ends[0]!);
const up = (share: number) => height * (1 - share);
const fixed = (value: number) => value.toFixed(1);

function panel(rows: readonly Row[], title: string): string {
  const classes = ends.slice(1).map((to, k): Class => {
    const from = ends[k]!;
    return { from, to, rows: rows.filter(({ store }) => store >= from && store < to) };
  });
  const ticks = ends.map((grams) => {
    const x = fixed(across(grams));
    return `<line x1="${x}" x2="${x}" y1="${height}" y2="${height + 4}" stroke="#444"/><text x="${x}" y="${height + 16}" text-anchor="middle">${Number(grams.toFixed(2))}</text>`;
  });
  const shares = [0, 0.5, 1].map(
    (share) =>
      `<line x1="0" x2="${width}" y1="${up(share)}" y2="${up(share)}" stroke="#ddd"/><text x="-6" y="${up(share) + 4}" text-anchor="end">${100 * share} %</text>`,
  );
  const edges = [0.08, 0.5].map(
    (grams) =>
      `<line x1="${fixed(across(grams))}" x2="${fixed(across(grams))}" y1="0" y2="${height}" stroke="#999" stroke-dasharray="2 3"/>`,
  );
  return [
    `<text x="0" y="-8">${title} (${rows.length})</text>`,
    ...shares,
    ...edges,
    ...ticks,
    curve(classes, "points-to", -3),
    curve(classes, "points-away", 3),
  ].join("");
}

function curve(classes: readonly Class[], verdict: Row["catalyst"], aside: number): string {
  const isFilled = verdict === "points-to";
  const colour = isFilled ? "#b3400d" : "#1f5f8b";
  const points = classes
    .filter(({ rows }) => rows.length > 0)
    .map((one) => {
      const hits = one.rows.filter(({ catalyst }) => catalyst === verdict).length;
      const [low, high] = proportionBounds(hits, one.rows.length);
      const x = across(Math.sqrt(one.from * one.to)) + aside;
      return { x: fixed(x), y: fixed(up(hits / one.rows.length)), low: fixed(up(low)), high: fixed(up(high)) };
    });
  const line = points.map(({ x, y }) => `${x},${y}`).join(" ");
  const marks = points.map(
    ({ x, y, low, high }) =>
      `<line x1="${x}" x2="${x}" y1="${low}" y2="${high}" stroke="${colour}"/><circle cx="${x}" cy="${y}" r="3.5" fill="${isFilled ? colour : "#fff"}" stroke="${colour}"/>`,
  );
  const dashes = isFilled ? "" : ` stroke-dasharray="5 3"`;
  return `<polyline points="${line}" fill="none" stroke="${colour}" stroke-width="1.5"${dashes}/>${marks.join("")}`;
}
