// Drives one car: everything that happens in it, at a fine fixed step, as arrays.

import type { CarSpec } from "./car.ts";
import { activeShare, createCatalyst } from "./catalyst.ts";
import { layOutDrive } from "./drive.ts";
import { runEngine } from "./engine.ts";
import { createFuelling, type Seen } from "./fuelling.ts";
import { lagShare } from "./lag.ts";
import { createPipe } from "./pipe.ts";
import { type Random, seededRandom } from "./random.ts";
import { createSensor } from "./sensor.ts";

/** What a recorder can ask for. */
export const quantities = [
  "frontVoltage",
  "rearVoltage",
  "throttle",
  "engineSpeed",
  "roadSpeed",
  "airFlow",
  "engineLoad",
  "manifoldPressure",
  "coolant",
  "shortTrim",
  "longTrim",
  "fuelStatus",
  "catalystTemperature",
] as const;
export type Quantity = (typeof quantities)[number];

/** Every quantity at every step, free of the recorder's noise, and what only the simulator knows. */
export interface History extends Record<Quantity, Float64Array> {
  readonly car: CarSpec;
  /** s. */
  readonly step: number;
  readonly count: number;
  /** Excess 1 - 1/lambda: into the catalyst, out of it. */
  readonly excessIn: Float64Array;
  readonly excessOut: Float64Array;
  /** g of oxygen held. */
  readonly stored: Float64Array;
  /** 1 while fuel is cut. */
  readonly cut: Uint8Array;
  /** V by which the front reads lower because of charges that did not burn: the depth of a misfire's lean spike. */
  readonly spike: Float64Array;
  /** Index into car.drive. */
  readonly phase: Uint8Array;
}

export const physicsStep = 0.001;

export function runCar(car: CarSpec): History {
  const random = seededRandom(car.seed);
  const drive = layOutDrive(car.drive, car.engine, random.split(), physicsStep);
  const engine = runEngine(car, drive);
  const { count } = drive;
  const column = () => new Float64Array(count);
  const history: History = {
    car,
    step: physicsStep,
    count,
    phase: drive.phase,
    engineSpeed: drive.engineSpeed,
    throttle: drive.throttle,
    roadSpeed: drive.roadSpeed,
    airFlow: engine.airFlow,
    engineLoad: engine.engineLoad,
    manifoldPressure: engine.manifoldPressure,
    coolant: engine.coolant,
    catalystTemperature: engine.catalystTemperature,
    frontVoltage: column(),
    rearVoltage: column(),
    shortTrim: column(),
    longTrim: column(),
    fuelStatus: column(),
    excessIn: column(),
    excessOut: column(),
    stored: column(),
    cut: new Uint8Array(count),
    spike: column(),
  };
  runMixture(history, engine.exhaustVolume, random.split());
  return history;
}

/** The loop through fuel, gas, catalyst and sensors; each step sees the voltages of the step before. */
function runMixture(history: History, volume: Float64Array, random: Random): void {
  const { car, step, count } = history;
  const fuelling = createFuelling(car.fuelling, step);
  const mixture = createMixture(history, random);
  const catalyst = createCatalyst(car.catalyst, step);
  const front = createSensor(car.front, step);
  const frontWithoutMisfire = createSensor(car.front, step);
  const rear = createSensor(car.rear, step);
  const toFront = createPipe(volume, car.pipes.ahead);
  const toRear = createPipe(volume, car.pipes.behind);
  const atValves = new Float64Array(count);
  const mixing = lagShare(car.pipes.mixing, step);
  const seen = new Sight();
  const seeping = createSeep(car, step);
  const drawnIn = createLeak(car, step);
  let mixed = atValves[0]!;
  for (let i = 0; i < count; i++) {
    const flow = history.airFlow[i]!;
    const running = history.engineSpeed[i]! > 300;
    const fuel = fuelling.next(seen.look(history, i));
    atValves[i] = mixture.atValves(fuel, i);
    mixed += (toFront(atValves, i) - mixed) * mixing;
    const seep = seeping(running);
    const arriving = withAir(withLeak(mixed, flow, car.leaks.ahead), seep);
    history.excessIn[i] = arriving;
    history.frontVoltage[i] = front(arriving + mixture.unburnt(i), running);
    if (car.misfire > 0) history.spike[i] = frontWithoutMisfire(arriving, running) - history.frontVoltage[i]!;
    const active = activeShare(car.catalyst, history.catalystTemperature[i]!);
    history.excessOut[i] = catalyst.pass(arriving, flow, active);
    history.stored[i] = catalyst.stored();
    const behind = withAir(withLeak(toRear(history.excessOut, i), flow, drawnIn(flow)), seep);
    history.rearVoltage[i] = rear(behind - catalyst.hydrogen(active), running);
    history.cut[i] = fuel === 0 ? 1 : 0;
    history.fuelStatus[i] = fuelling.status;
    history.shortTrim[i] = 100 * fuelling.shortTrim;
    history.longTrim[i] = 100 * fuelling.longTrim;
  }
}

/** Outside air of `leak` g/s mixed into a flow. */
function withLeak(excess: number, flow: number, leak: number): number {
  return leak > 0 && flow > 0 ? (excess * flow + leak) / (flow + leak) : excess;
}

/** A share of air beside gas of `excess`. */
const withAir = (excess: number, share: number) => (share > 0 ? excess + (1 - excess) * share : excess);

/** Share of air that has crept in while the engine stands; blown out again within 0.3 s of running. */
function createSeep({ seep }: CarSpec, step: number): (running: boolean) => number {
  if (seep === undefined) return () => 0;
  const [creeps, blown] = [lagShare(seep, step), lagShare(0.3, step)];
  let share = 0;
  return (running) => {
    share += running ? -share * blown : (1 - share) * creeps;
    return share;
  };
}

/**
 * g/s that the hole between the sensors draws: most at idle, where the pipe's pulses reach below the air outside, and never
 * twice the same (a gamma-like scatter that lasts about two pulses, own choice).
 */
function createLeak(car: CarSpec, step: number): (flow: number) => number {
  const { between, pulses } = car.leaks;
  if (!pulses || between === 0) return () => between;
  const random = seededRandom(car.seed ^ 0x2545f491);
  const last = lagShare(0.06, step);
  const gain = pulses.scatter * Math.sqrt((2 - last) / last);
  let scatter = 0;
  return (flow) => {
    scatter += (random.normal() * gain - scatter) * last;
    return between * Math.max(0, 1 - flow / pulses.fadesAt) * Math.max(0, 1 + scatter);
  };
}

/** What the module can see. Sensors count as awake once they have left 0.1 V around their bias. */
class Sight implements Seen {
  phase = {
    kind: "not-running",
    seconds: 0,
    engineSpeed: 0,
    ramp: 1,
    filling: 0,
    throttle: 0,
    gear: 0,
  } as Seen["phase"];
  engineSpeed = 0;
  frontVoltage = 0;
  rearVoltage = 0;
  frontAwake = false;
  rearAwake = false;
  running = 0;

  look(history: History, i: number): Seen {
    const before = Math.max(0, i - 1);
    this.phase = history.car.drive[history.phase[i]!]!;
    this.engineSpeed = history.engineSpeed[i]!;
    this.running += this.engineSpeed > 300 ? history.step : 0;
    if (i === 0) return this;
    this.frontVoltage = history.frontVoltage[before]!;
    this.rearVoltage = history.rearVoltage[before]!;
    this.frontAwake ||= Math.abs(this.frontVoltage - history.car.front.bias) > 0.15;
    this.rearAwake ||= Math.abs(this.rearVoltage - history.car.rear.bias) > 0.15;
    return this;
  }
}

/** From fuel at the injectors to gas at the valves: one engine cycle later, with scatter, and now and then unburnt. */
function createMixture(history: History, random: Random) {
  const { car, step } = history;
  const injected = new Float64Array(history.count);
  const settle = lagShare(0.05, step);
  const gain = car.fuelling.scatter * Math.sqrt((2 - settle) / settle);
  const slug = lagShare(0.02, step);
  let [scatter, untilFiring, unburntFor, lean] = [0, 0, 0, 0];
  return {
    atValves(fuel: number, i: number): number {
      injected[i] = fuel;
      scatter += (random.normal() * gain - scatter) * settle;
      const cycle = 120 / Math.max(300, history.engineSpeed[i]!);
      const sent = injected[Math.max(0, i - Math.round(cycle / step))]!;
      return 1 - sent * (1 + scatter);
    },
    /**
     * A charge that did not burn passes the front sensor as air, with its fuel unburnt beside it; for the catalyst the
     * mixture stays what it was. Four cylinders: two firings a turn.
     */
    unburnt(i: number): number {
      if (car.misfire === 0) return 0;
      untilFiring -= step;
      if (untilFiring <= 0 && history.cut[i] === 0 && history.engineSpeed[i]! > 300) {
        untilFiring = 30 / history.engineSpeed[i]!;
        if (random.chance(car.misfire)) unburntFor = untilFiring;
      }
      unburntFor -= step;
      lean += ((unburntFor > 0 ? 0.25 : 0) - lean) * slug;
      return lean;
    },
  };
}
