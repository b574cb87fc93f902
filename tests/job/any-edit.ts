// Any edit that a hand can make on the page, for properties over many of them.

import fc from "fast-check";
import { setChannel } from "../../src/job/edits/channels.ts";
import { addCompanion, removeCompanion } from "../../src/job/edits/companions.ts";
import { changeDimension, removeDimension } from "../../src/job/edits/dimensions.ts";
import { setFilter } from "../../src/job/edits/filters.ts";
import { hideChannel, moveChannel, setScale, shiftLane, showChannel, splitChannel } from "../../src/job/edits/lanes.ts";
import { acceptLiftOff, addLiftOff, moveLiftOff, rejectLiftOff } from "../../src/job/edits/lift-off-edits.ts";
import {
  changeJob,
  changeLimit,
  changeVehicle,
  dropExhibit,
  keepBench,
  keepCapture,
  keepExhibit,
} from "../../src/job/edits/make.ts";
import {
  changeDraft,
  changeEvidence,
  changeHandRow,
  changeIntake,
  changeRepair,
  labelCapture,
} from "../../src/job/edits/paper-edits.ts";
import { keepPlace, namePlace, removePlace } from "../../src/job/edits/places.ts";
import { editStretch, resetStretch } from "../../src/job/edits/stretch-edits.ts";
import type { BenchState, ExhibitRecord, Job } from "../../src/job/record/job.ts";
import { addDimension, at, bench, captureRecord, dimension, job } from "./samples.ts";

export type Edit = (job: Job, stamp: string) => Job;

export const exhibit = (id: string): ExhibitRecord => ({
  id,
  captureId: "a1",
  revision: 1,
  headline: id,
  madeAt: at(3),
  paper: "A4",
  svg: `${id}.svg`,
  png: `${id}.png`,
});

const shift = {
  shift: { value: 2, low: 1.9, high: 2.1, unit: "s", grade: "measured" },
  by: "hand",
  says: "by hand",
  ambiguousBy: null,
} as const;

const worked = addDimension(addDimension(rejectLiftOff(bench, "lift-0", "short"), dimension("d0")), dimension("d1"));

/** Two recordings; on the first there is some work already. */
export const startingJob: Job = keepExhibit(
  keepBench(keepCapture(job, at(1), captureRecord("b1")), at(2), "a1", worked),
  at(3),
  exhibit("e0"),
);

const onBench =
  (change: (bench: BenchState) => BenchState): Edit =>
  (now, stamp) => {
    const { bench: before } = now.captures.find(({ id }) => id === "a1")!;
    return keepBench(now, stamp, "a1", change(before));
  };

const value = fc.nat(99);
const channel = fc.constantFrom("c1", "c2", "c3", "c4", "c5", "c6");
const lane = channel.map((id) => `lane-${id}`);
const mark = fc.constantFrom("d0", "d1", "d2", "d3");
const event = fc.constantFrom("lift-0", "lift-1");
const span = fc.constantFrom({ from: 0, to: 10 }, { from: 10, to: 20 });

const ofJob: readonly fc.Arbitrary<Edit>[] = [
  value.map((n) => (now, stamp) => changeJob(now, stamp, { name: `name ${n}` })),
  value.map((n) => (now, stamp) => changeJob(now, stamp, { notes: `notes ${n}` })),
  fc.tuple(fc.constantFrom("codes", "odometer", "plate", "description"), value).map(
    ([field, n]) =>
      (now, stamp) =>
        changeVehicle(now, stamp, { [field]: `${n}` }),
  ),
  fc.tuple(fc.constantFrom("engineRuns", "idleSpeed"), fc.option(value)).map(
    ([name, n]) =>
      (now, stamp) =>
        changeLimit(now, stamp, name as never, n),
  ),
  fc.constantFrom("e0", "e1", "e2").map((id) => (now, stamp) => keepExhibit(now, stamp, exhibit(id))),
  fc.constantFrom("e0", "e1", "e2").map((id) => (now, stamp) => dropExhibit(now, stamp, id)),
  fc.tuple(fc.constantFrom("complaint", "since", "cap"), value).map(
    ([field, n]) =>
      (now, stamp) =>
        changeIntake(now, stamp, { [field]: `${n}` }),
  ),
  fc.tuple(fc.constantFrom("before", "after"), value).map(
    ([moment, n]) =>
      (now, stamp) =>
        changeEvidence(now, stamp, moment as "after", { status: { warmUps: n } }),
  ),
  value.map((n) => (now, stamp) => {
    const frame = { code: "P0420", values: { engineSpeed: n } };
    return changeEvidence(now, stamp, "before", { frame, declined: ["calibration"], answered: ["pending"] });
  }),
  fc.tuple(fc.constantFrom("plugs", "leak-ahead"), value).map(([cause, n]) => (now, stamp) => {
    const row = { cause: cause as "plugs", result: "in-order", value: `${n}`, by: "", at: "", photos: [] } as const;
    return changeHandRow(now, stamp, row);
  }),
  value.map((n) => (now, stamp) => changeRepair(now, stamp, { what: `${n}` })),
  value.map((n) => (now, stamp) => changeDraft(now, stamp, { words: `${n}` })),
  fc.tuple(fc.constantFrom("a1", "b1"), fc.constantFrom("before", "after", "donor", null)).map(
    ([id, stage]) =>
      (now, stamp) =>
        labelCapture(now, stamp, id, { stage: stage as "before" | null }),
  ),
];

const ofBench: readonly fc.Arbitrary<(bench: BenchState) => BenchState>[] = [
  fc.tuple(channel, value).map(
    ([id, n]) =>
      (now) =>
        setChannel(now, id, { gain: n }),
  ),
  fc.tuple(channel, value).map(
    ([id, n]) =>
      (now) =>
        setChannel(now, id, { label: `${n}` }),
  ),
  fc.tuple(channel, fc.constantFrom("front-o2", "other")).map(
    ([id, role]) =>
      (now) =>
        setChannel(now, id, { role: role as "other" }),
  ),
  fc.tuple(channel, value).map(
    ([id, n]) =>
      (now) =>
        setFilter(now, id, n > 0 ? { kind: "low-pass", cutoff: n } : null),
  ),
  channel.map((id) => (now) => hideChannel(now, id)),
  channel.map((id) => (now) => showChannel(now, id)),
  fc.tuple(channel, lane).map(
    ([id, to]) =>
      (now) =>
        moveChannel(now, id, to),
  ),
  channel.map((id) => (now) => splitChannel(now, id)),
  fc.tuple(lane, fc.constantFrom(-1, 1)).map(
    ([id, by]) =>
      (now) =>
        shiftLane(now, id, by as 1),
  ),
  fc.tuple(lane, value).map(
    ([id, n]) =>
      (now) =>
        setScale(now, id, [0, n]),
  ),
  fc.tuple(mark, value).map(
    ([id, n]) =>
      (now) =>
        addDimension(now, dimension(id, { label: `${n}` })),
  ),
  fc.tuple(mark, value).map(
    ([id, n]) =>
      (now) =>
        changeDimension(now, id, (d) => ({ ...d, label: `${n}` })),
  ),
  fc.tuple(mark, value).map(
    ([id, n]) =>
      (now) =>
        changeDimension(now, id, (d) => ({ ...d, place: n })),
  ),
  fc.tuple(mark, value).map(
    ([id, n]) =>
      (now) =>
        changeDimension(now, id, (d) => ({ ...d, from: { time: n, level: 0 } })),
  ),
  mark.map((id) => (now) => removeDimension(now, id)),
  fc.tuple(event, value).map(
    ([id, n]) =>
      (now) =>
        moveLiftOff(now, id, n),
  ),
  fc.tuple(event, value).map(
    ([id, n]) =>
      (now) =>
        rejectLiftOff(now, id, `${n}`),
  ),
  event.map((id) => (now) => acceptLiftOff(now, id, true)),
  value.map((n) => (now) => addLiftOff(now, `by-hand-${n % 3}`, n)),
  fc.tuple(span, fc.constantFrom("idle", "cruise")).map(
    ([of, kind]) =>
      (now) =>
        editStretch(now, { ...of, kind: kind as "idle" }),
  ),
  span.map((of) => (now) => resetStretch(now, of)),
  fc.tuple(mark, value).map(
    ([id, n]) =>
      (now) =>
        keepPlace(now, { id, name: "", from: n, to: n + 1 }),
  ),
  fc.tuple(mark, value).map(
    ([id, n]) =>
      (now) =>
        namePlace(now, id, `${n}`),
  ),
  mark.map((id) => (now) => removePlace(now, id)),
  fc.constant((now) => addCompanion(now, { captureId: "b1", shift }, bench)),
  fc.constant((now) => removeCompanion(now, "b1")),
  fc.constantFrom("shelf:s1", "job:b1").map((compared) => ({ laid: _, ...now }) => ({ ...now, compared })),
  fc
    .constantFrom("behind", "below")
    .map((place) => (now) => ({ ...now, laid: { picture: { place: place as "below" } } })),
];

export const anyEdit: fc.Arbitrary<Edit> = fc.oneof(...ofJob, ...ofBench.map((edit) => edit.map(onBench)));
