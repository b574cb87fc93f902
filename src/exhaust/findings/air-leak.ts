// Outside air ahead of a sensor: the front sees lean that is not there, and the module adds fuel, most at idle.

import { difference } from "../../signal/combining/combine.ts";
import type { Finding } from "../terms/analysis.ts";
import { describeLimit } from "../terms/limits.ts";
import { inWords, quantity } from "../terms/words.ts";
import { leakTest } from "./by-hand-steps.ts";
import { mayBeFolded } from "./folded-rows.ts";
import { leakExplains } from "./leak-between.ts";
import { recordTrims } from "./record-again.ts";
import { type Draft, type FindingScene, finding, inStretch, reason } from "./scene.ts";
import { rivalInWords, separatorInWords } from "./store-words.ts";
import { frontSwitches, trimsSeen } from "./trims-seen.ts";

export const airLeakFinding = (scene: FindingScene): Finding => finding("air-leak", draft(scene));

function draft(scene: FindingScene): Draft {
  const { limits } = scene;
  const between = leakBetween(scene);
  if (between) return between;
  const { idle, cruise } = trimsSeen(scene);
  const dependsOn = [describeLimit("trimTilt", limits), describeLimit("trimInvestigate", limits)];
  if (!idle || !cruise) {
    const lacks =
      !idle && !cruise ? "fuel trims at idle and cruise" : idle ? "fuel trims at cruise" : "fuel trims at idle";
    return {
      verdict: "cannot-say",
      statement: `A leak cannot be told without ${lacks}.`,
      next: [recordTrims, leakTest],
      dependsOn,
    };
  }
  if (![idle, cruise].every(({ stretch }) => frontSwitches(stretch))) {
    return {
      verdict: "cannot-say",
      statement:
        "A leak cannot be told by the fuel trims here: the front sensor did not switch, so they settle nothing.",
      next: [leakTest],
      dependsOn,
    };
  }
  const tilt = difference(idle.total, cruise.total, "%", { independent: true });
  const told = `The total fuel trim, the fuel that is added or taken away, is ${inWords(idle.total)} at idle and ${inWords(cruise.total)} at cruise.`;
  const reasons = [
    reason(inStretch("trims.total", idle.stretch), "total trim at idle", idle.total),
    reason(inStretch("trims.total", cruise.stretch), "total trim at cruise", cruise.total),
  ];
  if ((tilt.low ?? 0) > limits.trimTilt && (idle.total.low ?? 0) > 0) {
    return {
      verdict: "points-to",
      statement: `${told} That the module adds so much more fuel at idle looks like air that leaks in, ahead of the front sensor or into the intake.`,
      for: reasons,
      next: [leakTest, "Look for leaks of the intake as well: they show in the same way."],
      dependsOn,
    };
  }
  if ((tilt.high ?? Infinity) < limits.trimTilt) {
    return {
      verdict: "points-away",
      statement: `${told} A leak ahead of the front sensor would make it clearly higher at idle; it is not. One behind the front sensor does not show in the trims.`,
      against: reasons,
      dependsOn,
    };
  }
  return {
    verdict: "cannot-say",
    statement: `${told} The difference is not clear.`,
    for: reasons,
    next: [leakTest],
    dependsOn,
  };
}

/** Air that leaks in behind the catalyst explains the rear better than any store does; no trim tells that. */
function leakBetween(scene: FindingScene): Draft | null {
  const study = scene.measured.storeStudy;
  if (!study?.leak || !leakExplains(study) || mayBeFolded(scene)) return null;
  return {
    verdict: "points-to",
    statement: `${capital(rivalInWords["leak-between"])} explains the rear sensor better than a catalyst of any kind: the rear is lean most at little flow, and less so the harder the engine pulls.`,
    for: [{ reading: "storeStudy.leak", says: `air that leaks in: about ${quantity(study.leak.guess.leak, "g/s")}` }],
    next: [separatorInWords["smoke-test"], separatorInWords["hard-pull"]],
  };
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
