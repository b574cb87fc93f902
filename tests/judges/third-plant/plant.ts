// One ride: driver, car, engine, module, pipe, catalyst and sensors, step by step.

import { Catalyst, type CatalystSpec } from "./catalyst.ts";
import { Cell, type CellSpec, Lag, WideCell } from "./cell.ts";
import { chanceOf } from "./chance.ts";
import { type Act, Driver, type DriverSpec } from "./driver.ts";
import { Engine, type EngineSpec } from "./engine.ts";
import { copyInto, excessOf, joinAir, noGas, Stirred } from "./gas.ts";
import { Module, type ModuleSpec } from "./module.ts";
import { type BodySpec, Car } from "./road.ts";

/** Air that is drawn in through a hole: share of the flow at idle, and g/s at which half of that share is left. */
export interface HoleSpec {
  readonly place: "ahead" | "between";
  readonly share: number;
  readonly half: number;
}

export interface PipeSpec {
  /** Litres: each manifold branch pair to the front, front to catalyst, inside of each node, catalyst to rear. */
  readonly toFront: number;
  readonly toCatalyst: number;
  readonly node: number;
  readonly toRear: number;
}

export interface PlantSpec {
  readonly name: string;
  readonly seconds: number;
  readonly engine: EngineSpec;
  readonly body: BodySpec;
  readonly driver: DriverSpec;
  readonly plan: readonly Act[];
  readonly module: ModuleSpec;
  readonly pipe: PipeSpec;
  readonly catalyst: CatalystSpec;
  readonly front: CellSpec;
  readonly rear: CellSpec;
  readonly wideLag: number;
  readonly wideWidest: number;
  readonly wideError: number;
  readonly hole: HoleSpec | null;
  /** The rear answers only this share of its swing; 1: all of it. */
  readonly rearAwake: number;
  readonly coolant: number;
  readonly coolantHot: number;
  readonly ambient: number;
  /** % of the throttle as written when closed. */
  readonly closedThrottle: number;
  /** m/s2: how much the road rises and falls. */
  readonly rises: number;
  readonly coldStart: boolean;
  /** Fuel that comes out of the injectors over what the module asks of them. */
  readonly fuelFactor: number;
}

export const tracks = [
  "front",
  "rear",
  "lambda",
  "speed",
  "throttle",
  "road",
  "air",
  "load",
  "manifold",
  "coolant",
  "short",
  "long",
  "loop",
] as const;
export type Track = (typeof tracks)[number];

export interface Ride {
  readonly step: number;
  readonly count: number;
  readonly tracks: Readonly<Record<Track, Float64Array>>;
  /** Excess as it meets the catalyst; true g/s of air; fuel cut; catalyst and coolant hot. */
  readonly into: Float64Array;
  readonly flow: Float64Array;
  readonly cut: Uint8Array;
  readonly hot: Uint8Array;
}

export const step = 0.002;
const warmUp = 12;

export function ride(spec: PlantSpec): Ride {
  const count = Math.round(spec.seconds / step);
  const array = () => new Float64Array(count);
  const made = Object.fromEntries(tracks.map((track) => [track, array()])) as Record<Track, Float64Array>;
  const [into, flow, cut, hot] = [array(), array(), new Uint8Array(count), new Uint8Array(count)];
  const world = new World(spec);
  // What came before the recording: the car runs already, and the catalyst has found its balance.
  for (let k = spec.coldStart ? 0 : -Math.round(warmUp / step); k < count; k++) {
    world.advance();
    if (k < 0) continue;
    world.write(made, k);
    into[k] = world.excess;
    flow[k] = world.flow;
    cut[k] = world.isCut ? 1 : 0;
    hot[k] = world.isHot ? 1 : 0;
  }
  return { step, count, tracks: made, into, flow, cut, hot };
}

class World {
  excess = 0;
  flow = 3;
  private at = 0;
  private turn = 0;
  private sinceStart: number;
  private isRunning = true;
  private throttle = 0;
  private idleAir: number;
  private gasCelsius = 480;
  private coolant: number;
  private film = 0;
  private suction = 0;
  private readonly volts = { front: 0.45, rear: 0.6, lambda: 1 };
  private readonly senses = {
    front: 0.45,
    lambda: 1,
    rear: 0.6,
    rearAwake: true,
    speed: 0,
    pedal: 0,
    air: 0,
    coolant: 0,
    sinceStart: 0,
  };
  private readonly engine: Engine;
  private readonly car: Car;
  private readonly driver: Driver;
  private readonly module: Module;
  private readonly catalyst: Catalyst;
  private readonly cells: { front: Cell; rear: Cell; wide: WideCell };
  private readonly pipe: { manifold: Stirred; front: Stirred; catalyst: Stirred; rear: Stirred; tail: Stirred };
  private readonly mixed = noGas();
  private readonly chance;
  private readonly meter: Lag;
  private wake = { front: 1, rear: 1 };

  private readonly spec: PlantSpec;
  constructor(spec: PlantSpec) {
    this.spec = spec;
    const { name, engine, body, driver, plan, pipe, module } = spec;
    this.chance = chanceOf(`${name} run`);
    this.idleAir = 1.35 * engine.litres;
    this.engine = new Engine(engine, chanceOf(`${name} cylinders`));
    this.engine.speed = module.idle;
    this.car = new Car(body, this.engine);
    this.driver = new Driver(driver, plan, this.car);
    this.driver.begin();
    if (this.car.clutch === 1) this.engine.speed = this.car.turned(this.car.gear);
    this.module = new Module(module, 1.35 * engine.litres);
    this.catalyst = new Catalyst(spec.catalyst, 0.4, spec.coldStart ? spec.ambient + 20 : 540);
    this.cells = {
      front: new Cell(spec.front, 0),
      rear: new Cell(spec.rear, 1),
      wide: new WideCell(spec.wideLag, spec.wideWidest, spec.wideError),
    };
    this.pipe = {
      manifold: new Stirred(0.4 * pipe.toFront),
      front: new Stirred(0.6 * pipe.toFront),
      catalyst: new Stirred(pipe.toCatalyst + 3 * pipe.node),
      rear: new Stirred(0.5 * pipe.toRear),
      tail: new Stirred(0.5 * pipe.toRear),
    };
    this.coolant = spec.coolant;
    this.sinceStart = spec.coldStart ? 0 : 600;
    this.gasCelsius = spec.coldStart ? 120 : 480;
    this.wake = spec.coldStart ? { front: 0, rear: 0 } : { front: 1, rear: 1 };
    this.meter = new Lag(0.05, 1.35 * engine.litres);
  }

  get isCut(): boolean {
    return this.module.isCut;
  }

  get isHot(): boolean {
    return this.catalyst.active > 0.9 && this.coolant > 65;
  }

  advance(): void {
    this.at += step;
    const { engine, driver, car } = this;
    driver.drive(this.at, engine.speed, step);
    this.startOrStop();
    this.burn();
    car.move(driver.brake, this.isRunning, this.slope(), step);
    if (this.turn++ % 10 === 0) this.warm(10 * step);
    this.exhaust();
  }

  /** m/s2: a road that rises and falls by up to 2 %. */
  private slope(): number {
    const { rises } = this.spec;
    return rises * (Math.sin(this.at / 7.3 + 20 * rises) + 0.6 * Math.sin(this.at / 3.1));
  }

  private startOrStop(): void {
    const wants = this.driver.wantsEngine;
    if (wants && !this.isRunning) this.sinceStart = 0;
    this.isRunning = wants;
    this.sinceStart += step;
  }

  private burn(): void {
    const { engine, driver, module, spec } = this;
    const isAutomaticOff = !this.isRunning;
    if (this.isRunning && this.sinceStart < 0.6) engine.speed = Math.max(engine.speed, 250 + 1200 * this.sinceStart);
    this.throttle += (driver.pedal - this.throttle) * (step / (step + 0.06));
    const idleError = (module.spec.idle + (this.coolant < 50 ? 250 : 0) - engine.speed) / 100;
    const isIdle = this.throttle < 2 && this.car.clutch < 0.5;
    if (isIdle) this.idleAir += 0.22 * engine.spec.litres * Math.max(-2, Math.min(2, idleError)) * step;
    this.idleAir = Math.min(4.5 * engine.spec.litres, Math.max(0.55 * engine.spec.litres, this.idleAir));
    const quick = isIdle ? 0.22 * engine.spec.litres * Math.max(-1.5, Math.min(5, idleError)) : 0;
    const opened = 120 * engine.spec.litres * (1 - Math.cos((Math.min(100, this.throttle) / 100) * (Math.PI / 2)));
    const opening = isAutomaticOff ? 0 : Math.max(0.3, this.idleAir + quick) + opened;
    const { senses, volts } = this;
    senses.front = volts.front;
    senses.lambda = volts.lambda;
    senses.rear = volts.rear;
    senses.rearAwake = this.wake.rear > 0.9;
    senses.speed = engine.speed;
    senses.pedal = driver.pedal;
    senses.air = engine.breathed;
    senses.coolant = this.coolant;
    senses.sinceStart = this.sinceStart;
    const fuel = this.isRunning ? module.fuel(senses, step) : 0;
    const injected = module.isCut ? 0 : engine.compensated(fuel, this.film);
    const { share, seconds } = engine.spec.film;
    this.film += (share * injected - this.film / seconds) * step;
    engine.run(opening, injected * spec.fuelFactor, step);
  }

  private warm(step: number): void {
    const { spec } = this;
    const burns = this.isRunning && !this.isCut;
    const to = burns ? Math.min(820, 430 + 62 * Math.sqrt(this.flow)) : 260;
    this.gasCelsius += (to - this.gasCelsius) * (step / (step + (burns ? 4 : 9)));
    const pull = (0.05 + this.flow) / (spec.coldStart ? 420 : 600);
    this.catalyst.celsius += (this.gasCelsius + 60 * this.catalyst.active - this.catalyst.celsius) * pull * step;
    this.coolant += ((spec.coolantHot - this.coolant) * step) / 160;
    this.wake.front = Math.min(1, this.wake.front + step / 22);
    this.wake.rear = Math.min(1, this.wake.rear + step / 48);
  }

  private exhaust(): void {
    const { pipe, engine, spec, mixed, cells, chance } = this;
    this.flow = this.isRunning ? Math.max(0.05, engine.breathed) : 0.02;
    const [grams, kelvin] = [this.flow * step, this.gasCelsius + 273];
    copyInto(mixed, pipe.manifold.take(engine.out, grams, kelvin));
    if (!this.isRunning) {
      for (const part of Object.values(pipe)) part.creep(step / 14);
    }
    // Suction comes and goes with the strokes; what comes in is uneven.
    this.suction += (chance.bell() - this.suction) * 0.12;
    const { hole } = spec;
    const drawn = hole ? (hole.share * Math.max(0, 1 + 2.4 * this.suction)) / (1 + (this.flow / hole.half) ** 2) : 0;
    if (hole?.place === "ahead") joinAir(mixed, drawn);
    const atFront = pipe.front.take(mixed, grams, kelvin);
    const front = cells.front.read(atFront, this.wake.front, step);
    const lambda = cells.wide.read(atFront, step);
    copyInto(mixed, pipe.catalyst.take(atFront, grams, kelvin));
    this.excess = excessOf(mixed);
    this.catalyst.pass(mixed, this.flow, step);
    if (hole?.place === "between") joinAir(mixed, drawn);
    const cooler = 0.85 * kelvin;
    const atRear = pipe.tail.take(pipe.rear.take(mixed, grams, cooler), grams, cooler);
    const rear = cells.rear.read(atRear, this.wake.rear, step);
    this.volts.front = front;
    this.volts.lambda = lambda;
    this.volts.rear = 0.43 + spec.rearAwake * (rear - 0.43);
  }

  /** Values as they are now; what a recorder makes of them is its own. */
  write(to: Record<Track, Float64Array>, k: number): void {
    const { engine, module, spec, volts } = this;
    to.front[k] = volts.front;
    to.rear[k] = volts.rear;
    to.lambda[k] = volts.lambda;
    to.speed[k] = engine.speed;
    to.throttle[k] = spec.closedThrottle + (1 - spec.closedThrottle / 100) * this.throttle;
    to.road[k] = this.car.kmh;
    to.air[k] = spec.module.meter * this.meter.follow(this.isRunning ? Math.max(0, engine.throttled) : 0, step);
    to.load[k] =
      engine.speed > 60 ? Math.min(100, (100 * engine.breathed * 120) / (engine.speed * engine.spec.litres * 1.13)) : 0;
    to.manifold[k] = this.isRunning ? engine.pressure : 100;
    to.coolant[k] = this.coolant;
    to.short[k] = 100 * module.short;
    to.long[k] = 100 * module.long;
    to.loop[k] = module.loop;
  }
}
