// Two tabs edit one job in any order, save and hear of each other in any order: nothing that only one of them touched is lost.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { settingsOf } from "../../src/job/edits/channels.ts";
import { mergeJobs } from "../../src/job/merge/merge-jobs.ts";
import type { Job } from "../../src/job/record/job.ts";
import { anyEdit, type Edit, startingJob } from "./any-edit.ts";

type Tab = "one" | "other";
type Step = { readonly tab: Tab; readonly does: Edit | "save" | "hear"; readonly sameInstant: boolean };

interface Open {
  job: Job;
  base: Job;
  /** Field -> what this tab last put there; undefined: taken out. */
  readonly touched: Map<string, unknown>;
}

/** Storage and two tabs, as `store.ts` and the job desk use the merge. */
class TwoTabs {
  stored = startingJob;
  readonly tabs: Record<Tab, Open> = { one: opened(), other: opened() };
  private clock = 0;

  take({ tab, does, sameInstant }: Step): void {
    const it = this.tabs[tab];
    if (does === "hear") {
      it.job = mergeJobs(it.base, it.job, this.stored);
      it.base = this.stored;
    } else if (does === "save") {
      this.stored = mergeJobs(it.base, it.job, this.stored);
      it.job = this.stored;
      it.base = this.stored;
    } else {
      if (!sameInstant) this.clock++;
      const before = fieldsOf(it.job);
      it.job = does(it.job, new Date(1.7e12 + this.clock).toISOString());
      const after = fieldsOf(it.job);
      for (const field of new Set([...before.keys(), ...after.keys()])) {
        const [was, is] = [before.get(field), after.get(field)];
        if (was !== is) it.touched.set(field, is);
      }
    }
  }

  settle(): void {
    for (const does of ["save", "hear", "save", "hear"] as const) {
      for (const tab of ["one", "other"] as const) this.take({ tab, does, sameInstant: false });
    }
  }
}

const opened = (): Open => ({ job: startingJob, base: startingJob, touched: new Map() });

/** Every field that a hand can change, by a name that begins with the thing it belongs to: "thing | field". */
function fieldsOf(job: Job): Map<string, string> {
  const all = new Map<string, string>();
  const put = (thing: string, field: string, value: unknown) => all.set(`${thing} | ${field}`, JSON.stringify(value));
  const { name, notes, vehicle, limits, captures, exhibits } = job;
  for (const [field, value] of Object.entries({ name, notes, ...vehicle })) put("job", field, value);
  for (const [limit, value] of Object.entries(limits ?? {})) put("limits", limit, value);
  for (const exhibit of exhibits) put(exhibit.id, "exhibit", exhibit);
  for (const { id, bench } of captures) {
    for (const lane of bench.lanes) {
      put(`${id} ${lane.id}`, "scale", lane.scale);
      for (const channel of lane.channelIds) put(`${id} ${channel}`, "lane", lane.id);
    }
    for (const channel of bench.lanes.flatMap(({ channelIds }) => channelIds)) {
      put(`${id} ${channel}`, "hidden", bench.hidden.includes(channel));
      for (const [what, value] of Object.entries(settingsOf(bench, channel))) put(`${id} ${channel}`, what, value);
    }
    for (const { id: dimension, label, place, from, to, reading } of bench.dimensions) {
      put(`${id} ${dimension}`, "label", label);
      put(`${id} ${dimension}`, "place", place);
      put(`${id} ${dimension}`, "ends", { from, to, reading });
    }
    for (const edit of bench.liftOffEdits) {
      const about = edit.kind === "reject" || edit.kind === "accept" ? "counts" : "at";
      put(`${id} ${edit.id} ${about}`, "edit", edit);
    }
    for (const edit of bench.stretchEdits ?? []) put(`${id} ${edit.from}-${edit.to}`, "kind", edit.kind);
    for (const { captureId, shift } of bench.companions ?? []) put(`${id} with ${captureId}`, "shift", shift);
    put(`${id} reference`, "all", [bench.compared, bench.laid]);
  }
  return all;
}

const thingOf = (field: string) => field.split(" | ")[0]!;

/** What the two tabs may expect at the end. */
function expected({ tabs, stored }: TwoTabs): [field: string, value: unknown][] {
  const final = fieldsOf(stored);
  const isThere = (thing: string) => [...final.keys()].some((field) => thingOf(field) === thing);
  const pairs = [
    [tabs.one, tabs.other],
    [tabs.other, tabs.one],
  ] as const;
  return pairs.flatMap(([mine, theirs]) => {
    const others = new Set([...theirs.touched.keys()].map(thingOf));
    return [...mine.touched].filter(([field, value]) => {
      if (theirs.touched.has(field)) return false;
      // A lane is there while one of the two has a channel in it.
      if (thingOf(field).includes(" lane-") && (value === undefined || !isThere(thingOf(field)))) return false;
      // Taken out here, worked on there: it stays.
      return value !== undefined || !others.has(thingOf(field));
    });
  });
}

const step = fc.record({
  tab: fc.constantFrom<Tab>("one", "other"),
  does: fc.oneof({ weight: 4, arbitrary: anyEdit }, { weight: 1, arbitrary: fc.constantFrom("save", "hear") }),
  sameInstant: fc.boolean(),
}) as fc.Arbitrary<Step>;

describe("two tabs", () => {
  test("end equal, and hold every edit whose field the other did not touch", () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
        const both = new TwoTabs();
        for (const one of steps) both.take(one);
        both.settle();
        expect(both.tabs.one.job).toEqual(both.tabs.other.job);
        expect(both.tabs.one.job).toEqual(both.stored);
        const final = fieldsOf(both.stored);
        for (const [field, value] of expected(both)) expect([field, final.get(field)]).toEqual([field, value]);
      }),
      { numRuns: 400 },
    );
  });

  test("leave every channel in exactly one lane", () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
        const both = new TwoTabs();
        for (const one of steps) both.take(one);
        both.settle();
        for (const { bench } of both.stored.captures) {
          const placed = bench.lanes.flatMap(({ channelIds }) => channelIds);
          expect(placed.toSorted()).toEqual([...new Set(placed)].toSorted());
          expect(placed).toEqual(expect.arrayContaining(["c1", "c2", "c3", "c4", "c5", "c6"]));
          expect(bench.lanes.filter(({ channelIds }) => channelIds.length === 0)).toEqual([]);
        }
      }),
      { numRuns: 200 },
    );
  });

  test("change nothing by hearing what they know", () => {
    fc.assert(
      fc.property(fc.array(anyEdit, { maxLength: 10 }), (edits) => {
        const edited = edits.reduce((job, edit) => edit(job, "2026-03-01T11:00:00.000Z"), startingJob);
        expect(mergeJobs(startingJob, startingJob, edited)).toEqual(edited);
        expect(mergeJobs(startingJob, edited, startingJob)).toEqual(edited);
        expect(mergeJobs(startingJob, edited, startingJob).captures[0]!.bench).toBe(edited.captures[0]!.bench);
      }),
    );
  });
});
