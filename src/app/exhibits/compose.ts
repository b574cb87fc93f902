// From the bench as it stands, and what the user decided, to the sheet.

import type { BandLayer, Layer } from "../../drawing/layer.ts";
import { linesOf } from "../../drawing/layer.ts";
import { extentWithin, type Polyline } from "../../drawing/paths.ts";
import { fitRange, type Range } from "../../drawing/scale.ts";
import { oxygenShare } from "../../exhaust/lift-offs/oxygen.ts";
import { nextPlace } from "../../job/edits/exhibits.ts";
import type { ExhibitRecord } from "../../job/record/job.ts";
import type { LaneLook } from "../../plot/stage/types.ts";
import type { ExhibitEdits } from "../../report/exhibit/edits.ts";
import type {
  ExhibitSheet,
  NamedReading,
  SheetDetail,
  SheetDimension,
  SheetLane,
  SheetLayer,
  TitleBlock,
} from "../../report/exhibit/sheet.ts";
import { conditionsText, proposeHeadline, sensorsSubline, verdictLine } from "../../report/exhibit/wording.ts";
import { dateText } from "../../signal/written/date-text.ts";
import { decimalsOf, formatExact, formatNumber, freeDigits, withUnit } from "../../signal/written/digits.ts";
import { formatValue } from "../../signal/written/reading-text.ts";
import { showUnit } from "../../signal/written/writing.ts";
import { healthySource } from "../healthy/healthy-layer.ts";
import { sampleRates } from "../lanes/sample-rates.ts";
import type { DraftDetail } from "./details.ts";
import { dimensionForCustomer, laneForCustomer } from "./everyday.ts";
import { settingsInForce, shownChannels } from "./settings-text.ts";
import type { ExhibitDraft } from "./types.ts";

/** What the dialog opens with: a headline proposed from what is shown, nothing of the vehicle ticked. */
export function firstEdits(draft: ExhibitDraft, paper: ExhibitEdits["paper"], drawnBy: string): ExhibitEdits {
  const looks = draft.lanes.flatMap((lane) => linesOf(lane).map(({ look }) => look));
  return {
    view: draft.view,
    paper,
    headline: proposeHeadline(draft),
    subline: [
      verdictLine(draft.catalyst ?? null, draft),
      looks.includes("front") && looks.includes("rear") ? sensorsSubline : "",
    ]
      .filter((text) => text !== "")
      .join(" "),
    notes: [],
    shade: null,
    ticks: { plate: false, vin: false, customer: false },
    ...(draft.sound?.isShown ? { sound: true } : {}),
    drawnBy,
  };
}

/** When the sheet is made, and what it revises. */
export interface Making {
  /** As `localInstant` gives it. */
  readonly now: string;
  readonly revises?: ExhibitRecord | undefined;
}

export function composeSheet(draft: ExhibitDraft, edits: ExhibitEdits, making: Making): ExhibitSheet {
  const lanes = draft.lanes.map((lane) => sheetLane(draft, withSound(lane, edits)));
  const details = edits.details === false ? [] : (draft.details ?? []);
  const relabelled = (one: SheetDimension) => ({ ...one, label: edits.labels?.[one.id] ?? one.label });
  return {
    paper: edits.paper,
    headline: edits.headline,
    subline: edits.subline,
    view: draft.view,
    lanes,
    ...(details.length > 0 ? { details: details.map((detail, i) => sheetDetail(detail, lanes, i)) } : {}),
    ...(draft.sound || draft.everyday ? { small: forCustomer(draft, relabelled) } : {}),
    dimensions: draft.dimensions.map(relabelled),
    notes: edits.notes,
    shade: edits.shade,
    marks: draft.evidence,
    readings: [...details.flatMap(detailReadings), ...draft.readings],
    title: titleBlock(draft, edits, making),
  };
}

/** With where a sound catalyst would have stayed, and two cars in everyday words. */
function forCustomer(
  draft: ExhibitDraft,
  relabelled: (one: SheetDimension) => SheetDimension,
): NonNullable<ExhibitSheet["small"]> {
  const { lanes, dimensions, everyday } = draft;
  const said = everyday ? lanes.map((lane) => laneForCustomer(lane, everyday)) : lanes;
  const named = everyday ? dimensions.map((one) => dimensionForCustomer(one, everyday)) : dimensions;
  return { lanes: said.map((lane) => sheetLane(draft, lane)), dimensions: named.map(relabelled) };
}

/** Capital letters, as details have in a drawing. */
const letterOf = (i: number): string => String.fromCharCode(65 + i);

/** On the scale of the lane that it enlarges. */
function sheetDetail(detail: DraftDetail, lanes: readonly SheetLane[], i: number): SheetDetail {
  const { view, dimensions, title } = detail;
  const [letter, lane] = [letterOf(i), sheetLane(detail, detail.lane)];
  const scale = lanes.find(({ id }) => id === lane.id)?.scale ?? lane.scale;
  return { letter, view, dimensions, lane: { ...lane, title: `${letter}: ${title}`, scale, isKeyless: true } };
}

function detailReadings({ liftOff }: DraftDetail, i: number): readonly NamedReading[] {
  const delay = { name: `${letterOf(i)}: delay, front to rear`, reading: liftOff.delay };
  const oxygen = { name: `${letterOf(i)}: ${oxygenName(liftOff.airFlow)}`, reading: liftOff.storedOxygen };
  return liftOff.storedOxygen.value === null ? [delay] : [delay, oxygen];
}

/**
 * So that a reader can multiply to the grams: the mean flow over the delay, as chosen and, where that is another unit, in g/s too;
 * and the share of oxygen in air.
 */
export function oxygenName(airFlow: number | null): string {
  return `oxygen passed: delay × ${airFlow === null ? "air" : flowInWords(airFlow)} × ${formatExact(oxygenShare)}`;
}

function flowInWords(airFlow: number): string {
  const inGrams = withUnit(formatNumber(airFlow, decimalsOf(airFlow, freeDigits)), "g/s");
  return showUnit("g/s") === "g/s" ? `${inGrams} air` : `${formatValue(airFlow, "g/s")} air (${inGrams})`;
}

type Drawn = Pick<ExhibitDraft, "view" | "windows">;

function sheetLane(draft: Drawn, lane: LaneLook): SheetLane {
  const { id, title, unit, guides, share, scale } = lane;
  const layers = lane.layers.flatMap((layer) => sheetLayer(draft, layer));
  const lines = layers.flatMap((layer) => (layer.form === "line" ? layer : edges(layer)));
  return {
    id,
    title,
    ...(lane.namesTrace ? { namesTrace: true } : {}),
    unit,
    guides,
    share,
    layers,
    scale: scale === "fit" ? fitted(draft, unit, lines) : scale,
  };
}

/** Without what a sound catalyst would have given, where the user left it out. */
const withSound = (lane: LaneLook, { sound }: ExhibitEdits): LaneLook =>
  sound ? lane : { ...lane, layers: lane.layers.filter(({ source }) => source !== healthySource) };
const soundSays = ({ sound }: ExhibitDraft, edits: ExhibitEdits) => (sound && edits.sound ? [sound.says] : []);

const touches = ({ from, to }: ExhibitDraft["view"], times: Float64Array) => times[0]! < to && times.at(-1)! > from;
const edges = ({ times, low, high }: BandLayer): Polyline[] =>
  [low, high].map((values) => ({ times, values, dense: false }));

function sheetLayer({ windows, view }: Drawn, layer: Layer): SheetLayer[] {
  if (layer.form === "band") return touches(view, layer.times) ? [layer] : [];
  const window = windows.find(({ channelId }) => channelId === layer.channelId);
  if (!window) return [];
  const { times, values, dense } = window;
  return [{ ...layer, times, values, dense }];
}

function fitted({ view }: Drawn, unit: string, traces: readonly Polyline[]): Range {
  const extents = traces.map((trace) => extentWithin(trace, view.from, view.to)).filter((extent) => extent !== null);
  if (extents.length === 0) return fitRange(null, unit, null);
  const low = Math.min(...extents.map(([bottom]) => bottom));
  const high = Math.max(...extents.map(([, top]) => top));
  return fitRange([low, high], unit, null);
}

function titleBlock(draft: ExhibitDraft, edits: ExhibitEdits, { now, revises }: Making): TitleBlock {
  const { job, record, summary } = draft;
  const { plate, vin, customer, description, odometer } = job.vehicle;
  return {
    job: job.name,
    vehicle: [description, odometer].filter((text) => text.trim() !== "").join(", "),
    plate: edits.ticks.plate ? plate : null,
    vin: edits.ticks.vin ? vin : null,
    customer: edits.ticks.customer ? customer : null,
    recording: record.fileName,
    sha256: draft.sha256 ?? record.sha256,
    sampleRate: sampleRates(shownChannels(draft)),
    recordedAt: dateText(summary.startedAt),
    conditions: conditionsText(draft.conditions),
    settings: [...settingsInForce(draft), ...soundSays(draft, edits), ...(draft.statements ?? [])],
    ...nextPlace(job.exhibits, revises),
    drawnBy: edits.drawnBy,
    drawnAt: dateText(now),
  };
}
