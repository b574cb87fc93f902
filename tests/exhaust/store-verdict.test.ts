// When the fit of the store and the witnesses beside it may accuse the catalyst: studies made by hand, no recording.

import { expect, test } from "vitest";
import type { Weighed } from "../../src/exhaust/findings/catalyst-evidence.ts";
import type { Draft } from "../../src/exhaust/findings/scene.ts";
import { storeVerdict } from "../../src/exhaust/findings/store-verdict.ts";
import { usualGuess } from "../../src/exhaust/store/unknowns.ts";
import type { Finding } from "../../src/exhaust/terms/analysis.ts";
import { limitsInForce } from "../../src/exhaust/terms/limits.ts";
import type { StoreStudy } from "../../src/exhaust/terms/store-study.ts";
import { measured } from "../../src/signal/numbers/reading.ts";

/** Bounds and best in g; how much worse a leak explains the recording, in margins. */
interface Made {
  readonly bounds: readonly [low: number, best: number, high: number];
  readonly leakWorse: number;
  /** The reading says "at most". */
  readonly isOpenBelow?: boolean;
  readonly cuts?: number;
  /** g that lift-offs show to have been stored, at the least. */
  readonly stored?: number;
  readonly steady?: readonly { readonly verdict: string; readonly stretch: object }[];
  readonly liftOff?: Weighed["liftOff"]["verdict"];
  readonly waitsFor?: readonly Finding[];
}

const nothing: Draft = { verdict: "cannot-say", statement: "Too little." };
const busyRear: Draft = { verdict: "points-to", statement: "The rear follows." };

const verdictOf = (made: Made, byTime: Draft): string => draftOf(made, byTime).verdict;

function draftOf(made: Made, byTime: Draft): Draft {
  const [low, best, high] = made.bounds;
  const fit = { guess: { ...usualGuess(false), store: best }, cost: 100 };
  const storeStudy: StoreStudy = {
    reading: made.isOpenBelow
      ? { value: high, low: 0, high, unit: "g", grade: "at-most" }
      : measured(best, [low, high], "g"),
    near: { low, high },
    asTaken: { low: low / 1.6, high: high * 1.6 },
    best: fit,
    value: best,
    explained: 0.95,
    leak: { ...fit, cost: 100 + 15 * made.leakWorse },
    quickRear: null,
    margin: 15,
    ...{
      air: "measured",
      airDoubt: 1.1,
      isAirUnknown: false,
      litres: null,
      cuts: made.cuts ?? 4,
      row: 0.005,
      seconds: 120,
    },
  };
  // 30 s of cruise, so that a recording without a cut may be judged at all.
  const stretches = [{ kind: "cruise", from: 0, to: 30 }];
  const verdict = made.liftOff ?? "none";
  const liftOff = {
    verdict,
    delay: verdict === "none" ? null : measured(0.12, [0.1, 0.14], "s"),
    count: 2,
    airFlow: null,
    stored: made.stored ?? null,
  };
  const all = {
    scene: { measured: { storeStudy, stretches }, limits: limitsInForce() },
    ...{ steady: made.steady ?? [], worst: null, swings: [], liftOff, waitsFor: made.waitsFor ?? [] },
  } as unknown as Weighed;
  return storeVerdict(all, [], byTime)!;
}

const surelyDead = { bounds: [0.01, 0.05, 0.2], leakWorse: 5 } as const;
const unsure = { bounds: [0.02, 0.09, 0.6], leakWorse: 5 } as const;

test("a fit that leaves no doubt accuses where fuel was cut, or a lift-off could be timed, and nowhere else", () => {
  expect(verdictOf(surelyDead, nothing)).toBe("points-to");
  expect(verdictOf({ ...surelyDead, cuts: 1, liftOff: "between" }, nothing)).toBe("points-to");
  const none = { ...surelyDead, cuts: 0 };
  expect(verdictOf(none, nothing)).toBe("cannot-say");
  const [restless, idling] = ["cruise", "idle"].map((kind) => ({ verdict: "between", stretch: { kind } }));
  expect(verdictOf({ ...none, steady: [restless!] }, nothing)).toBe("points-to");
  expect(verdictOf({ ...none, steady: [idling!] }, nothing)).toBe("cannot-say");
});

test("a fit that calls the store dead accuses none that held on in lift-offs, or that delays and swings clear", () => {
  expect(verdictOf({ ...surelyDead, liftOff: "long" }, nothing)).toBe("cannot-say");
  expect(verdictOf({ ...surelyDead, liftOff: "between", stored: 0.2 }, nothing)).toBe("cannot-say");
  expect(verdictOf({ ...surelyDead, liftOff: "between", stored: 0.1 }, nothing)).toBe("points-to");
  const said = draftOf(surelyDead, { verdict: "points-away", statement: "The rear is calm." });
  expect(said).toMatchObject({ verdict: "cannot-say", explanation: { best: "dead", asGood: "sound" } });
  expect(said.statement).toMatch(/^Two witnesses disagree\./);
});

test("a fit that is not certain accuses beside a rear that falls at once, or witnesses that point there by themselves", () => {
  expect(verdictOf(unsure, nothing)).toBe("cannot-say");
  expect(verdictOf({ ...unsure, liftOff: "between" }, nothing)).toBe("cannot-say");
  expect(verdictOf({ ...unsure, liftOff: "short" }, nothing)).toBe("points-to");
  expect(verdictOf(unsure, busyRear)).toBe("points-to");
});

test("no witness is believed where the store is surely not dead, a leak explains nearly as much, or something comes first", () => {
  expect(verdictOf({ ...unsure, bounds: [0.2, 0.3, 0.5] }, busyRear)).toBe("cannot-say");
  expect(verdictOf({ ...unsure, leakWorse: 1.5 }, busyRear)).toBe("cannot-say");
  const misfire = { id: "misfire", verdict: "points-to" } as Finding;
  expect(verdictOf({ ...unsure, liftOff: "short", waitsFor: [misfire] }, nothing)).toBe("cannot-say");
});

test("a store that the fit calls sound clears no catalyst behind which the rear falls at once", () => {
  const sound = { bounds: [0.4, 0.8, 2], leakWorse: 5 } as const;
  expect(verdictOf(sound, nothing)).toBe("points-away");
  expect(draftOf({ ...sound, liftOff: "short" }, nothing)).toMatchObject({
    verdict: "cannot-say",
    statement: expect.stringMatching(/^Two witnesses disagree\..*After lifting off/s),
  });
});

test("a store of which no least size can be told is called sound by nobody", () => {
  const sound = { bounds: [0.3, 0.8, 2], leakWorse: 5 } as const;
  expect(verdictOf(sound, nothing)).toBe("points-away");
  expect(verdictOf({ ...sound, isOpenBelow: true }, nothing)).toBe("cannot-say");
});

test("a store that may be a worn one's is called no worn-out one's, not a sound one", () => {
  const said = (low: number) => draftOf({ bounds: [low, 0.7, 2], leakWorse: 5 }, nothing);
  expect([said(0.3).verdict, said(0.55).verdict]).toEqual(["points-away", "points-away"]);
  expect(said(0.3).statement).toContain(
    "A worn-out catalyst (0.15\u00a0g or less) does not explain the recording as well: this points away from the catalyst.",
  );
  expect(said(0.55).statement).toContain("That is a sound store: this points away from the catalyst.");
});

// As far from 0.15 g as from 0.5 g, in the logarithm: 0.27 g (calculated).
test("near a worn-out one's size a fit clears nobody by itself, and does with something stored or calm beside it", () => {
  const made = { bounds: [0.2, 0.7, 2], leakWorse: 5 } as const;
  const calm = (kind: string) => [{ verdict: "quiet", stretch: { kind, from: 0, to: 30 } }];
  expect(verdictOf(made, nothing)).toBe("cannot-say");
  expect(verdictOf({ ...made, steady: calm("idle") }, nothing)).toBe("cannot-say");
  expect(verdictOf({ ...made, steady: calm("cruise") }, nothing)).toBe("points-away");
  expect(verdictOf({ ...made, stored: 0.1 }, nothing)).toBe("cannot-say");
  expect(verdictOf({ ...made, stored: 0.2 }, nothing)).toBe("points-away");
  expect(verdictOf(made, { verdict: "points-away", statement: "It holds on." })).toBe("points-away");
});
