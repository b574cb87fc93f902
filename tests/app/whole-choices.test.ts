// What the job says of the car reaches the measurement.

import { expect, test } from "vitest";
import { wholeChoices } from "../../src/app/core/whole-choices.ts";
import { emptyIntake } from "../../src/job/intake/intake.ts";

test("the engine's size is passed on where the intake tells one", () => {
  const choices = (engineSize: string) => wholeChoices({ intake: { ...emptyIntake, engineSize } });
  expect(choices("1598 cm³").litres).toBe(1.598);
  expect(choices("16V")).not.toHaveProperty("litres");
  expect(wholeChoices({})).not.toHaveProperty("litres");
});
