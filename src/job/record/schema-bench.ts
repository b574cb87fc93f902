// How a recording is looked at, as it is saved: all that undo and redo go through. Channels are named by Channel.id.

import * as v from "valibot";
import { stretchKinds } from "../../exhaust/terms/analysis.ts";
import { bank, id, label, list, map, number, reading, role, sentence, shift, storedName } from "./schema-parts.ts";
import { most } from "./sizes.ts";

export const lane = v.object({
  id,
  channelIds: list(id, most.channels),
  /** "fit" follows what the visible window holds; a pair holds the scale there. */
  scale: v.union([v.literal("fit"), v.tuple([number, number])]),
  /** Height relative to the other lanes. */
  share: number,
});

/** What a channel is looked at through; see signal's Filter. */
const filter = v.variant("kind", [
  v.object({ kind: v.literal("median"), spikes: number }),
  v.object({ kind: v.literal("low-pass"), cutoff: number }),
]);

/** Corrections by the user. value shown and measured = recorded * gain + offset; every exhibit states it. */
export const channelSettings = v.object({
  role: v.exactOptional(role),
  bank: v.exactOptional(bank),
  unit: v.exactOptional(label),
  label: v.exactOptional(label),
  gain: number,
  offset: number,
  /** A view: what is recorded and measured of the whole stays as it is. */
  filter: v.exactOptional(filter),
});

/** Where an end of a dimension stands. */
export const anchor = v.object({
  /** s */
  time: number,
  /** In the lane's unit. */
  level: number,
  /** The channel it was snapped to, and how well the place is known. */
  snap: v.exactOptional(
    v.object({
      channelId: id,
      to: v.picklist(["crossing", "extreme", "sample"]),
      low: number,
      high: number,
      through: v.exactOptional(filter),
    }),
  ),
});

/** A measurement placed on a trace by hand. */
export const dimension = v.object({
  id,
  kind: v.picklist(["time", "level"]),
  laneId: id,
  from: anchor,
  to: anchor,
  /** Where the dimension line is drawn: a level for a time pair, a time for a level pair. */
  place: number,
  label,
  reading,
  /** The filters it was taken through, in words. */
  through: v.exactOptional(sentence),
});

const liftOffEdit = v.variant("kind", [
  v.object({ kind: v.picklist(["add", "move"]), id, at: number }),
  v.object({ kind: v.literal("reject"), id, because: sentence }),
  v.object({ kind: v.literal("accept"), id }),
]);

const stretchEdit = v.object({ from: number, to: number, kind: v.picklist(stretchKinds) });

export const pictureSettings = v.object({
  /** In the same lane, or in a lane of its own below. */
  place: v.picklist(["behind", "below"]),
  /** Both lanes on one scale, or each fitted; behind is always one scale. */
  scale: v.picklist(["common", "each"]),
  difference: v.boolean(),
});

const matchingPart = v.object({
  of: v.picklist(["lift-off", ...stretchKinds]),
  what: sentence,
  suspect: list(id, most.parts),
  reference: list(id, most.parts),
});

/** How a reference is laid under a recording. */
export const laid = v.object({
  /** Absent: as the first way to line the two up has it. */
  shift: v.exactOptional(shift),
  picture: v.exactOptional(
    v.object({
      place: v.exactOptional(pictureSettings.entries.place),
      scale: v.exactOptional(pictureSettings.entries.scale),
      difference: v.exactOptional(pictureSettings.entries.difference),
    }),
  ),
  /** The parts that are compared; all where there is none. */
  parts: v.exactOptional(list(matchingPart, most.parts)),
});

/** Another recording of the job, and how far it is shifted: time here = time there + shift. */
export const companion = v.object({ captureId: storedName, shift });

/** An instant or a span that was given a name, s; of an instant both ends are one. */
export const place = v.object({ id, name: label, from: number, to: number });

export const benchState = v.object({
  lanes: list(lane, most.lanes),
  hidden: list(id, most.channels),
  channels: map(channelSettings, most.channels),
  /** Cursors: at most one time pair and one level pair stand at once, not pinned. */
  cursors: list(dimension, 2),
  dimensions: list(dimension, most.dimensions),
  liftOffEdits: list(liftOffEdit, most.liftOffEdits),
  /** Stretches put right by hand. */
  stretchEdits: v.exactOptional(list(stretchEdit, most.stretchEdits)),
  /** Instants and spans with a name. */
  places: v.exactOptional(list(place, most.places)),
  /** The reference it lies over: "shelf:ID", "job:CAPTURE-ID", "sample:FILE". */
  compared: v.exactOptional(id),
  /** How it lies there, as far as somebody chose. */
  laid: v.exactOptional(laid),
  /** The usual band is drawn, over the reference and these known-good traces, named as above. */
  banded: v.exactOptional(list(id, most.banded)),
  /** Where the rear would have stayed behind a sound catalyst is drawn. */
  sound: v.exactOptional(v.boolean()),
  /** Other recordings of the same run on this one's time axis; their channels stand in `lanes` under ids of their own. */
  companions: v.exactOptional(list(companion, most.companions)),
  bank,
});
