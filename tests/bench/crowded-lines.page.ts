// The part of crowded-lines.ts that runs in the page.

import { drawBand } from "../../src/drawing/band.ts";
import { drawLine } from "../../src/drawing/paths.ts";

/**
 * Times in ms of one line of `columns` pairs on a canvas of that width, rastered to the last pixel: a switching line, and
 * one that covers whole areas with uneven edges.
 */
export function timeLines(columns: number, height: number, thickness: number, isArea: boolean) {
  const canvas = Object.assign(document.createElement("canvas"), { width: columns, height });
  const ctx = canvas.getContext("2d", { willReadFrequently: true })!;
  const times = Float64Array.from({ length: 2 * columns }, (_, i) => Math.floor(i / 2));
  const switching = (time: number, i: number) =>
    height / 2 + 0.3 * height * Math.sign(Math.sin(time / 12)) + (i % 2 ? 8 : -8);
  const uneven = (time: number, i: number) =>
    height / 2 + (i % 2 ? 1 : -1) * height * (0.1 + 0.35 * Math.abs(Math.sin(37 * time)));
  const values = times.map(isArea ? uneven : switching);
  const [line, one] = [
    { times, values, dense: true },
    { offset: 0, factor: 1 },
  ];
  const shape = { left: 0, columns, thickness };
  const ways = {
    stroke: (path: Path2D) => {
      drawLine(line, one, one, path);
      ctx.lineWidth = thickness;
      ctx.lineJoin = "round";
      ctx.stroke(path);
    },
    fill: (path: Path2D) => {
      drawBand(line, one, one, shape, { pen: path });
      ctx.fill(path);
    },
    bars: (path: Path2D) => {
      const bar = (left: number, top: number, tall: number) => ctx.fillRect(left, top, 1, tall);
      drawBand(line, one, one, shape, { pen: path, bar });
      ctx.fill(path);
    },
  };
  const median = (draw: (path: Path2D) => void) => {
    const taken = Array.from({ length: 41 }, () => {
      const start = performance.now();
      ctx.clearRect(0, 0, columns, height);
      draw(new Path2D());
      ctx.getImageData(0, 0, 1, 1);
      return performance.now() - start;
    });
    return taken.sort((a, b) => a - b)[20]!;
  };
  return { stroke: median(ways.stroke), fill: median(ways.fill), bars: median(ways.bars) };
}
