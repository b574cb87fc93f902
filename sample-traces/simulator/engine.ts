// Air flow and temperatures from the drive.

import type { CarSpec } from "./car.ts";
import type { DriveTrack } from "./drive.ts";
import { litresPerGram } from "./gas.ts";
import { lagShare } from "./lag.ts";

export interface EngineTrack {
  /** g/s. */
  readonly airFlow: Float64Array;
  /** %, of the air a full charge would be; kPa, absolute. */
  readonly engineLoad: Float64Array;
  readonly manifoldPressure: Float64Array;
  /** Litres of exhaust gas since the start, hot. */
  readonly exhaustVolume: Float64Array;
  /** degC. */
  readonly coolant: Float64Array;
  readonly catalystTemperature: Float64Array;
}

/** g per litre of intake air at 20 degC and 101.3 kPa. */
const airDensity = 1.204;
const kiloPascal = 101.3;
/** Charge of the cylinders over what they would hold at the manifold's pressure. From memory. */
const volumetric = 0.82;

export function runEngine(car: CarSpec, drive: DriveTrack): EngineTrack {
  const { count, step } = drive;
  const track: EngineTrack = {
    airFlow: new Float64Array(count),
    engineLoad: new Float64Array(count),
    manifoldPressure: new Float64Array(count),
    exhaustVolume: new Float64Array(count),
    coolant: new Float64Array(count),
    catalystTemperature: new Float64Array(count),
  };
  const { displacement, exhaustBase, exhaustRise, coolantRise } = car.engine;
  const follow = lagShare(car.catalyst.warmUp, step);
  const manifold = lagShare(2, step);
  let [volume, coolant, brick, gas] = [0, car.engine.coolantStart, car.catalyst.startTemperature, exhaustBase];
  for (let i = 0; i < count; i++) {
    // A four-stroke engine draws its displacement once in two turns.
    const flow = ((displacement * drive.engineSpeed[i]!) / 120) * airDensity * drive.filling[i]!;
    gas += (exhaustBase + exhaustRise * drive.filling[i]! - gas) * manifold;
    volume += flow * litresPerGram(gas, kiloPascal) * step;
    if (flow > 0.3) {
      coolant += Math.min(1, Math.max(0, (90 - coolant) / 4)) * coolantRise * step;
      brick += (gas - 273 - brick) * follow;
    }
    track.airFlow[i] = flow;
    track.engineLoad[i] = flow > 0 ? Math.min(100, 100 * drive.filling[i]!) : 0;
    track.manifoldPressure[i] = manifoldPressure(car, flow > 0 ? drive.filling[i]! : volumetric);
    track.exhaustVolume[i] = volume;
    track.coolant[i] = coolant;
    track.catalystTemperature[i] = brick;
  }
  return track;
}

/** kPa: what fills the cylinders so far; near the air outside where the valves meter. */
function manifoldPressure({ engine }: CarSpec, filling: number): number {
  return kiloPascal * (engine.unthrottled ? 0.95 : Math.min(1, filling / volumetric));
}
