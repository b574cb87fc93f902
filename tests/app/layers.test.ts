// A kind of layer is one object: what it says is on the lanes, in the readouts and on paper, and nothing else knows it.

import { createRoot } from "solid-js";
import { expect, test } from "vitest";
import { createBlinkLayer } from "../../src/app/comparing/blink-layer.ts";
import { composeSheet, firstEdits } from "../../src/app/exhibits/compose.ts";
import { seenThrough } from "../../src/app/lanes/filter-layer.ts";
import { createLayers, type LayerKind, type Windows } from "../../src/app/lanes/layers.ts";
import { type BandLayer, type LineLayer, linesOf } from "../../src/drawing/layer.ts";
import type { LaneLook } from "../../src/plot/stage/types.ts";
import { exhibitSvg } from "../../src/report/exhibit/exhibit-svg.ts";
import { draft } from "./exhibit-draft.ts";

const lane: LaneLook = {
  ...{ id: "l", title: "Oxygen sensors", unit: "V", scale: "fit", share: 1, guides: [] },
  layers: [{ form: "line", source: "own", channelId: "c2", label: "Rear", unit: "V", look: "rear" }],
};
const { from, to } = draft.view;
const times = Float64Array.of(from, to);
const window = (channelId: string, low: number, high: number) => ({
  ...{ channelId, times, dense: false },
  values: Float64Array.of(low, high),
});
const own: LayerKind = {
  lay: () => [lane],
  windows: () => [window("c2", 0.2, 0.6)],
  windowsOver: () => [window("c2", 0.2, 0.6)],
};

const line: LineLayer = {
  ...{ form: "line", source: "made-up", channelId: "made-up", label: "Twice as much", unit: "V", look: "other" },
  ...{ stroke: "dotted", isBehind: true },
};
const doubled = (windows: Windows): Windows =>
  windows
    .filter(({ channelId }) => channelId === "c2")
    .map((w) => ({ ...w, channelId: "made-up", values: w.values.map((value) => 2 * value) }));

function madeUp(): LayerKind {
  const flat = (level: number) => Float64Array.of(level, level);
  const band: BandLayer = {
    ...{ form: "band", source: "made-up", label: "About so", look: "rear", times },
    ...{ low: flat(0.1), middle: flat(0.2), high: flat(0.3) },
  };
  return {
    lay: (lanes) => lanes.map((one) => ({ ...one, layers: [...one.layers, line, band] })),
    windows: doubled,
    windowsOver: (_, before) => doubled(before),
    valuesAt: () => [{ channelId: "made-up", value: 0.8, between: false }],
    statements: () => ["Dotted: twice the rear."],
  };
}

function stackOf(kinds: readonly LayerKind[]) {
  const readouts = () => [{ time: 1, values: [{ channelId: "c2", value: 0.4, between: true }] }];
  return createRoot(() => createLayers(kinds, { view: () => draft.view, readouts }));
}

test("what a kind lays is drawn, read out, fitted, put on paper and stated there", async () => {
  const layers = stackOf([own, madeUp()]);
  expect(linesOf(layers.lanes()[0]!).map(({ source }) => source)).toEqual(["own", "made-up"]);
  expect([...layers.windows().get("made-up")!.values]).toEqual([0.4, 1.2]);
  expect(layers.readouts()[0]!.values.map(({ value }) => value)).toEqual([0.4, 0.8]);

  const laid = await layers.over({ span: draft.view, width: 100, isOffered: false });
  const asked = { ...draft, ...laid, statements: layers.statements() };
  const sheet = composeSheet(asked, firstEdits(asked, "A4", "Workshop"), { now: "2026-11-12T10:00:00" });
  expect(sheet.lanes[0]!.scale[1]).toBeGreaterThanOrEqual(1.2);
  expect(sheet.title.settings).toContain("Dotted: twice the rear.");
  const svg = exhibitSvg(sheet);
  for (const piece of ['data-trace="made-up"', 'data-band="made-up rear"', ">Twice as much<", ">About so<"])
    expect(svg).toContain(piece);
});

test("without it nothing is left of it", () => {
  const layers = stackOf([own]);
  expect(layers.lanes()).toEqual([lane]);
  expect([...layers.windows().keys()]).toEqual(["c2"]);
  expect(layers.statements()).toEqual([]);
});

test("a channel seen through a filter says so, and stays pale behind as recorded; without its window, too", () => {
  const filters = { c2: { kind: "low-pass", cutoff: 10 } } as const;
  const labels = (find: "here" | "none" | "unfit") => linesOf(seenThrough(lane, { filters, find: () => find }));
  expect(labels("here")).toMatchObject([
    { channelId: "filtered c2", label: "Rear: low-pass 10\u00a0Hz", look: "rear" },
    { channelId: "c2", label: "as recorded", isBehind: true, isUntold: true },
  ]);
  expect(labels("none")[0]!.label).toMatch(/as recorded, too much in view for low-pass/);
  expect(labels("unfit")[0]!.label).toMatch(/as recorded, its rate does not fit low-pass/);
  expect(seenThrough(lane, { filters: {}, find: () => "none" })).toBe(lane);
});

test("blinked to the suspect, what is filtered stands over what was recorded as it did", () => {
  const filters = { c2: { kind: "low-pass", cutoff: 10 } } as const;
  const through = seenThrough(lane, { filters, find: () => "here" });
  const reference: LineLayer = { ...line, source: "reference", channelId: "theirs", label: "Rear", look: "rear" };
  const compared = { ...through, layers: [...through.layers, reference] };
  const behind = (seen: "suspect" | "reference") => {
    const laid = createBlinkLayer({ seen: () => seen }).lay([compared], {
      windows: () => new Map(),
      span: () => draft.view,
      paper: null,
    });
    return linesOf(laid[0]!).map(({ isUnseen, isBehind }) => (isUnseen ? "unseen" : isBehind === true));
  };
  expect(behind("suspect")).toEqual([false, true, "unseen"]);
  expect(behind("reference")).toEqual(["unseen", "unseen", false]);
});
