// A freeze frame as conditions that a recording can be looked through for.

import type { Bank } from "../../capture/model/capture.ts";
import type { FrameConditions, FrameQuantity } from "../../exhaust/terms/conditions.ts";
import type { FreezeFrame } from "../evidence/evidence.ts";
import type { ParameterId } from "../parameters/parameters.ts";

/** Only what a recording may hold as well. Trims are left out: they change with the fault, not with the road. */
const quantities = (bank: Bank): Readonly<Record<FrameQuantity, ParameterId>> => ({
  "engine-speed": "engineSpeed",
  "road-speed": "roadSpeed",
  "engine-load": "load",
  "air-flow": "airFlow",
  "manifold-pressure": "manifoldPressure",
  throttle: "throttle",
  "coolant-temp": "coolant",
  "catalyst-temp": bank === 1 ? "catalystTemperature1" : "catalystTemperature2",
  "fuel-status": bank === 1 ? "fuelStatus1" : "fuelStatus2",
});

export function frameConditionsOf(frame: FreezeFrame, bank: Bank): FrameConditions {
  return Object.fromEntries(
    Object.entries(quantities(bank)).flatMap(([quantity, id]) => {
      // A system that the car does not have reads 0.
      const value = frame.values[id] ?? (quantity === "fuel-status" ? frame.values.fuelStatus1 : undefined);
      const isTold = value !== undefined && !(quantity === "fuel-status" && value === 0);
      return isTold ? [[quantity, value] as const] : [];
    }),
  );
}
