// What is remembered changes no answer: the judge is the same analysis made without a memory.

import { describe, expect, test } from "vitest";
import { drawKind, simulate } from "../../sample-traces/simulator/fleet.ts";
import { analyse, storeStudyOf } from "../../src/exhaust/analyse.ts";
import { comparableOf } from "../../src/exhaust/comparing/comparable.ts";
import type { AnalysisChoices } from "../../src/exhaust/terms/analysis.ts";
import { limitsInForce } from "../../src/exhaust/terms/limits.ts";
import { anew, answering, remembering } from "../../src/exhaust/terms/remembered.ts";
import { ofKinds } from "../share.ts";

describe("a memory of what was measured", () => {
  const { capture } = simulate(drawKind("leak-ahead", 5, "choose"));
  const plain = analyse(capture);
  const [lift] = plain.liftOffs;
  const longest = plain.stretches.reduce((so, one) => (one.to - one.from > so.to - so.from ? one : so));
  const limits = limitsInForce();
  const every: readonly [string, AnalysisChoices][] = [
    ["nothing", {}],
    ["a lift-off set aside", { edits: [{ kind: "reject", id: lift!.id, because: "gear change" }] }],
    ["a lift-off moved", { edits: [{ kind: "move", id: lift!.id, at: lift!.at + 0.4 }] }],
    ["a stretch corrected", { stretches: [{ from: longest.from, to: longest.to, kind: "load" }] }],
    ["a limit of the findings", { limits: { soundStore: limits.soundStore * 1.2 } }],
    ["a limit of the crossings", { limits: { switchLevel: limits.switchLevel + 0.02 } }],
    ["all as it was", {}],
  ];
  const edits = ofKinds(["nothing", "a stretch corrected", "a limit of the crossings", "all as it was"], every);

  test("answers after each edit as without it", () => {
    const recall = remembering();
    for (const [name, choices] of edits) {
      const remembered = analyse(capture, choices, () => {}, recall);
      const judge = Object.keys(choices).length === 0 ? plain : analyse(capture, choices);
      expect(JSON.stringify(remembered), name).toBe(JSON.stringify(judge));
    }
  });

  test("tells what a comparison must know from the same memory", () => {
    const recall = remembering();
    const remembered = comparableOf(
      capture,
      analyse(capture, {}, () => {}, recall),
      {},
      recall,
    );
    expect(JSON.stringify(remembered)).toBe(JSON.stringify(comparableOf(capture, plain)));
  });

  test("answers with a store from elsewhere as if all were measured in one place", () => {
    const recall = remembering();
    const butStore = analyse(capture, {}, () => {}, answering(recall, "store", null));
    expect(butStore.storeStudy).toBeNull();
    const study = storeStudyOf(capture, {}, anew);
    const whole = analyse(capture, {}, () => {}, answering(recall, "store", study));
    expect(JSON.stringify(whole)).toBe(JSON.stringify(plain));
  });

  test("does only what depends on what changed", () => {
    const recall = remembering();
    let done: string[] = [];
    const noting: typeof recall = (what, inputs, limits, work) =>
      recall(what, inputs, limits, (used) => {
        done.push(what);
        return work(used);
      });
    analyse(capture, {}, () => {}, noting);
    const [all, { length: stretches }] = [done, plain.stretches];
    expect(all.filter((what) => what.startsWith("sides"))).toHaveLength(stretches);
    done = [];
    analyse(capture, {}, () => {}, noting);
    expect(done).toEqual([]);
    analyse(capture, every[4]![1], () => {}, noting);
    expect(done).toEqual([]);
    analyse(capture, every[3]![1], () => {}, noting);
    expect(done.filter((what) => /^(sides|whole|store|lift-offs|front|rear|cells)/.test(what))).toEqual([]);
    expect(done).toContain(`stretch ${longest.from} ${longest.to}`);
  });

  test("keeps work apart that looked at other limits, and what lies within other work", () => {
    const recall = remembering();
    let times = 0;
    const inner = (all: typeof limits) =>
      recall("inner", [], all, (used) => {
        times++;
        return used.switchLevel;
      });
    const outer = (all: typeof limits) => recall("outer", [], all, (used) => inner(used) + used.lowLevel);
    expect([outer(limits), outer({ ...limits, highLevel: 9 }), times]).toEqual([0.75, 0.75, 1]);
    expect([inner(limits), outer({ ...limits, lowLevel: 1 }), times]).toEqual([0.45, 1.45, 1]);
    expect([outer({ ...limits, switchLevel: 2 }), times]).toEqual([2.3, 2]);
    expect([recall("outer", ["other"], limits, () => 7), outer(limits), times]).toEqual([7, 0.75, 2]);
  });
});
