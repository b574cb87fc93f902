import { describe, expect, test } from "vitest";
import type { LiftOff } from "../../src/exhaust/terms/analysis.ts";
import { conditionsText, proposeHeadline } from "../../src/report/exhibit/wording.ts";
import { atLeast, atMost, measured, notResolvable, type Reading } from "../../src/signal/numbers/reading.ts";
import { dateText } from "../../src/signal/written/date-text.ts";

const at = measured(31.2, [31.1, 31.3], "s");

function liftOff(delay: Reading, change: Partial<LiftOff> = {}): LiftOff {
  return {
    ...{ id: "1", at: 31.2, frontFall: at, rearFall: at, delay, storedOxygen: atMost(1, "g"), fuelCut: "likely" },
    ...{
      airFlow: 11,
      engineSpeed: 4600,
      rejected: null,
      setAside: null,
      origin: "found",
      fuelReturn: at,
      richAgain: at,
    },
    ...{ corrected: null, rearSwitch: at, valid: true, remarks: [] },
    ...change,
  };
}

describe("proposeHeadline", () => {
  const view = { from: 25, to: 37 };
  const propose = (delay: Reading, change: Partial<LiftOff> = {}) =>
    proposeHeadline({ liftOff: liftOff(delay, change), finding: "The finding.", view });

  test("says the delay as it was measured, and never more than it supports", () => {
    expect(propose(measured(0.05, [0.04, 0.06], "s"))).toContain("sees air 0.05\u00a0s after the front");
    expect(propose(atMost(0.3, "s"))).toContain("sees air at most 0.3\u00a0s after the front");
    expect(propose(atLeast(3.1, "s"))).toContain(
      "for at least 3.1\u00a0s after the front, the rear sensor sees no air",
    );
    expect(propose(notResolvable("s", "two values a second"))).toContain("cannot time the rear sensor");
  });

  test("takes the finding where the lift-off does not count, else says what is shown", () => {
    expect(propose(atMost(0.3, "s"), { rejected: "braked", setAside: "hand" })).toBe("The finding.");
    expect(propose(atMost(0.3, "s"), { valid: false, rejected: "asleep", setAside: "rule" })).toBe("The finding.");
    expect(proposeHeadline({ liftOff: null, finding: null, view })).toMatch(/25\.0 … 37\.0\u00a0s$/);
  });
});

describe("dates and conditions", () => {
  test("a date is read as it stands, without a time zone's shift", () => {
    expect(dateText("2026-11-12T10:41:07")).toBe("12 Nov 2026, 10:41");
    expect(dateText("2026-01-02T23:59:59.000Z")).toBe("2 Jan 2026, 23:59");
    expect(dateText("2026-03-04")).toBe("4 Mar 2026");
    expect(dateText("yesterday")).toBe("yesterday");
  });

  test("conditions over a view go from lowest to highest, the unit once", () => {
    expect(conditionsText({ engineSpeed: [794.2, 4051], airFlow: [3, 3.2], coolant: [66, 90] })).toBe(
      "794 … 4051\u00a0rpm, air 3\u00a0g/s, coolant 66 … 90\u00a0°C",
    );
  });

  test("a condition that is not known is left out", () => {
    expect(conditionsText({ engineSpeed: 2100.4, airFlow: null, coolant: 91 })).toBe(
      "2100\u00a0rpm, coolant 91\u00a0°C",
    );
  });
});
