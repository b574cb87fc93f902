// Lanes over one time axis: name with a sample of each line, numbers at the left, faint guides, the traces.

import { bandKinds, bandsOf, linesOf, ownAndBehind } from "../../drawing/layer.ts";
import { toPixel } from "../../drawing/paths.ts";
import { niceTicks, shownLevelTicks } from "../../drawing/scale.ts";
import { decimalsIn, decimalsOfStep, formatNumber } from "../../signal/written/digits.ts";
import { formatTime } from "../../signal/written/reading-text.ts";
import { showUnit } from "../../signal/written/writing.ts";
import { dashOf, ink, weightOf, weights } from "../paper/ink.ts";
import { textWidth } from "../paper/metrics.ts";
import { label, stroke, tag } from "../paper/svg.ts";
import { shortenEnd } from "../paper/wrap.ts";
import { bandSample, drawBand, hatchings } from "./draw-bands.ts";
import { drawTrace } from "./draw-traces.ts";
import { bottom, right } from "./page.ts";
import type { LaneArea, PlotArea } from "./plot-area.ts";
import type { SheetLane, SheetLine } from "./sheet.ts";

const nameSize = 3.4;
const numberSize = 2.9;
const sampleLength = 9;
const sampleRoom = sampleLength + 1.5;
const apart = 5;
/** A number of the level axis for this many mm, of the time axis for that many. */
const levelEvery = 9;
const timeEvery = 24;

/** @param name  begins the ids of its clips: two plots on one sheet have names of their own. */
export function drawLanes(area: PlotArea, name = "lane"): string {
  const lanes = area.lanes.map((lane, i) => drawLane(area, lane, `${name}${i + 1}`));
  return tag("g", {}, hatchings(area.lanes.map(({ lane }) => lane)), ...lanes, drawTimeAxis(area));
}

function drawLane(area: PlotArea, lane: LaneArea, clip: string): string {
  const { box } = lane;
  const traces = linesOf(lane.lane).map((trace) => drawTrace(area, lane, trace, clip));
  return [
    tag("clipPath", { id: clip }, tag("rect", { ...box })),
    drawTimeGrid(area, lane),
    drawLevels(lane),
    ...bandsOf(lane.lane).map((band) => drawBand(area, lane, band, clip)),
    ...traces.map(({ markup }) => markup),
    tag("rect", { ...box, fill: "none", stroke: ink.hair, "stroke-width": weights.cell }),
    drawName(
      lane,
      traces.some(({ isHatched }) => isHatched),
    ),
  ].join("");
}

function drawTimeGrid(area: PlotArea, { box }: LaneArea): string {
  const lines = timeTicks(area).values.map((time) => {
    const x = toPixel(area.x, time);
    return `M${x.toFixed(2)} ${box.y.toFixed(2)}V${bottom(box).toFixed(2)}`;
  });
  return tag("path", { d: lines.join(""), stroke: ink.grid, "stroke-width": weights.grid });
}

function drawLevels({ lane, box, y }: LaneArea): string {
  const [low, high] = lane.scale;
  const most = Math.max(2, Math.floor(box.height / levelEvery));
  const { step, values, written } = shownLevelTicks(low, high, most, lane.unit);
  const decimals = decimalsOfStep(step);
  const across = (level: number, dash?: string) =>
    stroke([box.x, toPixel(y, level)], [right(box), toPixel(y, level)], {
      weight: weights.grid,
      stroke: dash ? ink.hair : ink.grid,
      ...(dash ? { dash } : {}),
    });
  const guides = lane.guides.filter((level) => level > low && level < high);
  const numbers = values.filter((level) => guides.every((guide) => !isNear(level, guide, y.factor)));
  const number = (level: number, places: number) =>
    label(box.x - 1.6, toPixel(y, level) + 1, formatNumber(written(level), places), {
      size: numberSize,
      anchor: "end",
      fill: ink.soft,
    });
  return [
    ...values.map((level) => across(level)),
    ...guides.map((level) => across(level, "0.6 1.2")),
    ...numbers.map((level) => number(level, decimals)),
    ...guides.map((level) => number(level, Math.max(decimals, decimalsIn(level)))),
  ].join("");
}

/** Two numbers nearer than this would touch. */
const isNear = (a: number, b: number, factor: number): boolean => Math.abs((a - b) * factor) < 1.5 * numberSize;

/** A piece of each line that shares a name, then the name. */
interface Key {
  readonly lines: readonly SheetLine[];
  readonly text: string;
}

function keysOf(lane: SheetLane): readonly Key[] {
  const lines = linesOf(lane);
  if (lane.isKeyless || (lines.length === 1 && lane.namesTrace)) return [];
  const { own, behind } = ownAndBehind(lines, (line) => line.of);
  const alone = own.map((line): Key => ({ lines: [line], text: line.label }));
  return [...alone, ...(behind[0] ? [{ lines: behind, text: behind[0].of! }] : [])];
}

const samplesWidth = ({ lines }: Key): number => lines.length * sampleRoom;

function drawName(area: LaneArea, isHatched: boolean): string {
  const { lane, box } = area;
  const y = box.y - 1.7;
  const unit = showUnit(lane.unit);
  const name = shortenEnd(unit === "" ? lane.title : `${lane.title}, ${unit}`, box.width / (lane.isKeyless ? 1 : 3), {
    size: nameSize,
    weight: 600,
  });
  let x = box.x + textWidth(name, nameSize, 600) + 5;
  const [keys, kinds] = [keysOf(lane), lane.namesNoBands ? [] : bandKinds(lane)];
  const bandRoom = kinds.reduce((sum, [name, same]) => sum + same.length * sampleRoom + textWidth(name, nameSize), 0);
  const samplesRoom = keys.reduce((sum, key) => sum + samplesWidth(key) + apart, 0);
  const room = right(box) - x - bandRoom - Math.max(0, kinds.length - 1) * apart - samplesRoom;
  const widths = sharedOut(
    keys.map(({ text }) => textWidth(text, nameSize)),
    room,
  );
  const samples = keys.map((key, i) => {
    const text = shortenEnd(key.text, widths[i]!, { size: nameSize });
    const pieces = key.lines.map((trace, k) => sampleLine(trace, x + k * sampleRoom, y));
    x += samplesWidth(key);
    const drawn = pieces.join("") + label(x, y, text, { size: nameSize });
    x += textWidth(text, nameSize) + apart;
    return drawn;
  });
  const bands = kinds.map(([name, same]) => {
    const pieces = same.map((band, i) =>
      bandSample(band, { x: x + i * sampleRoom, y: y - 2.6, width: sampleLength, height: 3 }),
    );
    x += same.length * sampleRoom;
    const drawn = pieces.join("") + label(x, y, name, { size: nameSize });
    x += textWidth(name, nameSize) + apart;
    return drawn;
  });
  const hatched = isHatched && !lane.isKeyless ? hatchedWords(x, y, right(box)) : "";
  return label(box.x, y, name, { size: nameSize, weight: 600 }) + samples.join("") + bands.join("") + hatched;
}

/** What an envelope is, where there is room to say it. */
function hatchedWords(x: number, y: number, end: number): string {
  const words = [
    "Hatched: swings to and fro between its edges",
    "Hatched: swings between its edges",
    "Hatched: swings",
  ];
  const text = words.find((one) => x + textWidth(one, nameSize) <= end);
  return text === undefined ? "" : label(x, y, text, { size: nameSize, fill: ink.soft });
}

/** Short ones get what they want; what is left is shared by the longer ones, so that no room stays empty. */
function sharedOut(wanted: readonly number[], room: number): readonly number[] {
  const given = new Map<number, number>();
  const rising = [...wanted.keys()].sort((a, b) => wanted[a]! - wanted[b]!);
  let left = room;
  for (const [done, i] of rising.entries()) {
    given.set(i, Math.max(0, Math.min(wanted[i]! + 0.1, left / (rising.length - done))));
    left -= given.get(i)!;
  }
  return wanted.map((_, i) => given.get(i)!);
}

function sampleLine(trace: SheetLine, x: number, y: number): string {
  const dash = dashOf(trace);
  return stroke([x, y - 1.1], [x + sampleLength, y - 1.1], {
    weight: weightOf(trace),
    stroke: ink[trace.look],
    ...(dash === undefined ? {} : { dash }),
  });
}

const timeTicks = ({ view, box }: PlotArea) => niceTicks(view.from, view.to, Math.floor(box.width / timeEvery));

/** A number that would leave the lanes' width is left out. */
function drawTimeAxis(area: PlotArea): string {
  const y = bottom(area.box);
  const { step, values } = timeTicks(area);
  return values
    .map((time) => {
      const x = toPixel(area.x, time);
      const text = formatTime(time, step);
      const mark = stroke([x, y], [x, y + 1.2], { weight: weights.grid, stroke: ink.hair });
      return mark + label(x, y + 4.8, text, { size: numberSize, anchor: "middle", fill: ink.soft });
    })
    .join("");
}
