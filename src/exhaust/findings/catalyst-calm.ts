// The rear is calm: enough to clear the catalyst only where the recording could have shown a bad one.

import { asShare } from "../terms/words.ts";
import type { Weighed } from "./catalyst-evidence.ts";
import { calmIn, delaySentence, swingSentence, whereCapital } from "./catalyst-words.ts";
import type { RearSwing } from "./rear-swing.ts";
import { again } from "./record-again.ts";
import type { Draft } from "./scene.ts";

const isCalmCruise = ({ stretch, told }: RearSwing): boolean => stretch.kind === "cruise" && told === "calm";

/** Nothing speaks against the catalyst: enough for "points away" only where the recording could have shown a bad one. */
export function calm(all: Weighed): Draft {
  const { steady, worst, liftOff, rear, swings } = all;
  const cruise = steady.find(({ stretch, verdict }) => stretch.kind === "cruise" && verdict === "quiet");
  const between = steady.some(({ verdict }) => verdict === "between");
  if (rear.told === "slow") {
    return {
      verdict: "cannot-say",
      statement: "The rear sensor is calm, but it is slow, and a slow rear sensor can hide a dead catalyst.",
      next: ["Test or renew the rear sensor, then repeat this recording."],
    };
  }
  if (between) return grey(all);
  if (!worst && !all.swings.some(({ told }) => told === "calm")) return onlyLiftOffs(all);
  if (liftOff.verdict === "long") {
    return {
      verdict: "points-away",
      statement: `${delaySentence(liftOff)} ${cruise ? `${calmIn(cruise.stretch)} ` : worst ? "" : `${swingSentence(swings)} `}The catalyst stores oxygen: this points away from it.`,
      next:
        cruise || swings.some(isCalmCruise)
          ? []
          : ["Steady cruise was not judged: record it as well, for a weak catalyst lets go there first."],
    };
  }
  if (cruise && rear.told === "quick") {
    return {
      verdict: "points-away",
      statement: `${calmIn(cruise.stretch)} ${delaySentence(liftOff)} The rear sensor is awake and quick, so the calm comes from the catalyst: this points away from it.`,
    };
  }
  if (!worst) return besideWideBand(all);
  return idleOnly(all, cruise !== undefined);
}

function grey({ steady, liftOff }: Weighed): Draft {
  const one = steady.find(({ verdict }) => verdict === "between")!;
  const activity = one.stretch.activity;
  const told = activity
    ? ` swing ${asShare(activity.amplitudeRatio)}, crossings ${asShare(activity.crossingRatio)} of the front's.`
    : "";
  return {
    verdict: "cannot-say",
    statement:
      `${whereCapital(one.stretch)} the rear is neither calm nor busy:${told} ${delaySentence(liftOff)}`.trim(),
    next: [again.besideKnownGood],
  };
}

/**
 * A cut is the least that a catalyst can be asked: little gas flows, and slowly. One that is worn may hold there and let go
 * at cruise, so lift-offs clear it only beside steady running in which a busy rear could have shown.
 */
function onlyLiftOffs({ liftOff }: Weighed): Draft {
  const what =
    liftOff.verdict === "long"
      ? "So the catalyst stored oxygen then. But no steady running could be judged, and that is where a weak catalyst lets go first."
      : "That is neither clearly soon nor clearly late, and no steady running could be judged.";
  return {
    verdict: "cannot-say",
    statement: `${delaySentence(liftOff)} ${what}`,
    next: [again.cruise],
  };
}

/** Calm behind a front that does not switch, and lift-offs that do not settle it. */
function besideWideBand({ swings, liftOff }: Weighed): Draft {
  return {
    verdict: "cannot-say",
    statement: `${swingSentence(swings)} ${delaySentence(liftOff)} Behind a wide-band front sensor a calm rear alone does not clear the catalyst.`,
    next: [again.liftOffs],
  };
}

function idleOnly({ worst, liftOff }: Weighed, cruise: boolean): Draft {
  const seen = calmIn(worst!.stretch);
  if (cruise) {
    return {
      verdict: "cannot-say",
      statement: `${seen} ${delaySentence(liftOff)} But nothing shows that the rear sensor is quick, and a slow one would look the same.`,
      next: [again.fallOfRear],
    };
  }
  const what =
    worst!.stretch.kind === "idle"
      ? "Idle alone never clears a catalyst: a weak one lets go at cruise"
      : "Nothing recorded says at what engine speed this was, and a weak catalyst lets go at cruise";
  return {
    verdict: "cannot-say",
    statement: `${seen} ${delaySentence(liftOff)} ${what}.`,
    next: [again.cruiseAndLiftOffs],
  };
}
