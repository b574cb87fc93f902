// Two benches of the same recording: each thing that a hand can change is a field of its own.

import type { LiftOffEdit, StretchEdit } from "../../exhaust/terms/analysis.ts";
import { untouched } from "../edits/channels.ts";
import type { BenchState, ChannelSettings, Companion, Dimension, Laid, Place } from "../record/job.ts";
import { mergeLanes } from "./merge-lanes.ts";
import { same } from "./same.ts";
import { entries, fields, list, names, type Origin, whole } from "./three-way.ts";

/** Its ends and what is read between them belong together. */
function mergeDimensions({ base, mineWins }: Origin<Dimension>, mine: Dimension, theirs: Dimension): Dimension {
  const { label, place, ...stands } = whole({ base: base && ends(base), mineWins }, ends(mine), ends(theirs));
  const worded = fields<Dimension>({})({ base, mineWins }, mine, theirs);
  return { ...stands, label: worded.label, place: worded.place };
}

const ends = (one: Dimension): Dimension => ({ ...one, label: "", place: 0 });

/** A channel that nobody corrected yet has the gain 1 and the offset 0: naming its role changes neither. */
function mergeSettings({ base, mineWins }: Origin<ChannelSettings>, mine: ChannelSettings, theirs: ChannelSettings) {
  return fields<ChannelSettings>({})({ base: base ?? untouched, mineWins }, mine, theirs);
}

/** Whether an event counts, and where it stands, are two fields of it. */
const liftOffKey = ({ kind, id }: LiftOffEdit) => `${kind === "reject" || kind === "accept" ? "counts" : "at"} ${id}`;

const stretchKey = ({ from, to }: StretchEdit) => `${from} ${to}`;

const fieldsOfBench = fields<BenchState>({
  lanes: mergeLanes,
  hidden: names,
  channels: entries(mergeSettings),
  cursors: list(({ kind }) => kind),
  dimensions: list(({ id }) => id, mergeDimensions),
  liftOffEdits: list(liftOffKey),
  stretchEdits: list(stretchKey),
  places: list<Place>(({ id }) => id, fields<Place>({})),
  banded: names,
  laid: fields<Laid>({ picture: fields<NonNullable<Laid["picture"]>>({}) }),
  companions: list<Companion>(({ captureId }) => captureId),
});

/** How a reference lies under a recording is said of that reference alone. */
export function mergeBenches(origin: Origin<BenchState>, mine: BenchState, theirs: BenchState): BenchState {
  const merged = fieldsOfBench(origin, mine, theirs);
  if (mine.compared === theirs.compared) return merged;
  const { laid: _, banded: __, ...rest } = merged;
  const { laid, banded } = merged.compared === mine.compared ? mine : theirs;
  const chosen = { ...rest, ...(laid && { laid }), ...(banded && { banded }) };
  return same(chosen, mine) ? mine : chosen;
}
