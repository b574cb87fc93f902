import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { begin, commit, type History, redo, settleStep, undo } from "../../src/job/edits/history.ts";

describe("history", () => {
  test("goes back and forth over edits", () => {
    const edited = commit(commit(begin("a"), "b"), "c");
    expect(undo(edited).present).toBe("b");
    expect(undo(undo(undo(edited))).present).toBe("a");
    expect(redo(undo(edited)).present).toBe("c");
    expect(redo(edited)).toBe(edited);
  });

  test("takes a drag as one step, and the next drag as another", () => {
    const drag = commit(commit(commit(begin(0), 1, "drag"), 2, "drag"), 3, "drag");
    expect(undo(drag).present).toBe(0);
    expect(undo(commit(settleStep(drag), 4, "drag")).present).toBe(3);
  });

  test("forgets what was undone once something else is done", () => {
    expect(redo(commit(undo(commit(begin(0), 1)), 2)).present).toBe(2);
  });

  // The model of undo every text editor follows: a list of states and a place in it.
  test("answers like a list of states with a pointer, for any sequence", () => {
    fc.assert(
      fc.property(fc.array(fc.oneof(fc.nat(9), fc.constant("undo"), fc.constant("redo"))), (steps) => {
        let states = [-1];
        let place = 0;
        let history: History<number> = begin(-1);
        for (const step of steps) {
          if (step === "undo") [history, place] = [undo(history), Math.max(0, place - 1)];
          else if (step === "redo") [history, place] = [redo(history), Math.min(states.length - 1, place + 1)];
          else if (typeof step === "number" && step !== states[place]) {
            states = [...states.slice(0, place + 1), step];
            place++;
            history = commit(history, step);
          }
          expect(history.present).toBe(states[place]);
        }
      }),
    );
  });
});
